//! The distributions that doubt is counted in: the normal, Student's t, and χ² for how well measurements agree.

mod chi_square;
mod normal;
mod student;

pub(crate) use chi_square::beyond as chi_square_beyond;
pub(crate) use normal::{cdf as normal_cdf, cdf_of_both as normal_cdf_of_both, quantile as normal_quantile};
pub(super) use student::{
    cdf as student_cdf, quantile as student_quantile, quantile_of_tail as student_quantile_of_tail,
};

#[cfg(test)]
mod tests;
