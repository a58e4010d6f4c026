//! A small dense linear system, solved in place.

/// Room for the unknowns of one saturation point: a density per component, the other phase's density, T.
pub(crate) const MAX: usize = crate::mixture::MAX_COMPONENTS + 2;

/// Solves `m x = b` for the first `n` unknowns by Gaussian elimination with scaled partial pivoting.
/// `None` where the matrix is singular or not finite. `b` may hold several right-hand sides.
pub(crate) fn solve<const SIDES: usize>(
    m: &mut [[f64; MAX]; MAX],
    b: &mut [[f64; SIDES]; MAX],
    n: usize,
) -> Option<()> {
    let mut scale = [0.0; MAX];
    for row in 0..n {
        let largest = m[row][..n].iter().fold(0.0_f64, |most, x| most.max(x.abs()));
        if !(largest > 0.0 && largest.is_finite()) {
            return None;
        }
        scale[row] = 1.0 / largest;
    }
    for column in 0..n {
        let pivot = (column..n)
            .max_by(|&a, &b| (m[a][column].abs() * scale[a]).total_cmp(&(m[b][column].abs() * scale[b])))?;
        if m[pivot][column] == 0.0 {
            return None;
        }
        m.swap(column, pivot);
        b.swap(column, pivot);
        scale.swap(column, pivot);
        for row in column + 1..n {
            let factor = m[row][column] / m[column][column];
            if factor == 0.0 {
                continue;
            }
            for k in column..n {
                m[row][k] -= factor * m[column][k];
            }
            for side in 0..SIDES {
                b[row][side] -= factor * b[column][side];
            }
        }
    }
    for row in (0..n).rev() {
        for side in 0..SIDES {
            let mut value = b[row][side];
            for k in row + 1..n {
                value -= m[row][k] * b[k][side];
            }
            b[row][side] = value / m[row][row];
        }
    }
    Some(())
}
