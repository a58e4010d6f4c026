//! The smallest eigenvalue of a small symmetric matrix, with its eigenvector.
//!
//! Source: cyclic Jacobi rotations, Golub and Van Loan, Matrix Computations, 4th ed., section 8.5.

use crate::mixture::{MAX_COMPONENTS, Matrix, Vector};

/// Smallest eigenvalue of the leading `n`×`n` block and its unit eigenvector.
pub(super) fn smallest(mut a: Matrix, n: usize) -> (f64, Vector) {
    let mut v: Matrix = Default::default();
    for (k, row) in v.iter_mut().enumerate() {
        row[k] = 1.0;
    }
    for _sweep in 0..30 {
        let off: f64 = (0..n).flat_map(|i| (0..i).map(move |j| (i, j))).map(|(i, j)| a[i][j] * a[i][j]).sum();
        let size: f64 = (0..n).map(|i| a[i][i] * a[i][i]).sum();
        if off <= 1e-30 * size {
            break;
        }
        for p in 0..n {
            for q in p + 1..n {
                rotate(&mut a, &mut v, n, p, q);
            }
        }
    }
    let mut best = 0;
    for k in 1..n {
        if a[k][k] < a[best][best] {
            best = k;
        }
    }
    let mut vector = Vector::default();
    for k in 0..n {
        vector[k] = v[k][best];
    }
    (a[best][best], vector)
}

fn rotate(a: &mut Matrix, v: &mut Matrix, n: usize, p: usize, q: usize) {
    if a[p][q] == 0.0 {
        return;
    }
    let theta = (a[q][q] - a[p][p]) / (2.0 * a[p][q]);
    let t = theta.signum() / (theta.abs() + (theta * theta + 1.0).sqrt());
    let t = if theta == 0.0 { 1.0 } else { t };
    let c = 1.0 / (t * t + 1.0).sqrt();
    let s = t * c;
    for k in 0..n {
        let (kp, kq) = (a[k][p], a[k][q]);
        a[k][p] = c * kp - s * kq;
        a[k][q] = s * kp + c * kq;
    }
    for k in 0..n {
        let (pk, qk) = (a[p][k], a[q][k]);
        a[p][k] = c * pk - s * qk;
        a[q][k] = s * pk + c * qk;
    }
    for row in v.iter_mut().take(n.min(MAX_COMPONENTS)) {
        let (kp, kq) = (row[p], row[q]);
        row[p] = c * kp - s * kq;
        row[q] = s * kp + c * kq;
    }
}
