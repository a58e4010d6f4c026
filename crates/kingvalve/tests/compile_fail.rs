//! Sums and arguments that mean nothing must not compile, and the compiler's words must help.

#[test]
fn what_means_nothing_does_not_compile() {
    trybuild::TestCases::new().compile_fail("tests/compile_fail/*.rs");
}
