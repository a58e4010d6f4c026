//! The one macro of the room: a Python class from a Rust quantity and its unit words.
//!
//! The words are checked by the compiler against the library's; the factors stay there.

/// Defines the class, its unit words as functions and properties, and the arithmetic Rust has for the type.
///
/// `affine`: a quantity with an arbitrary zero. `additive`: one with a zero of its own, so that sums, multiples,
/// shares and ratios of it mean something.
macro_rules! quantity_class {
    (additive $Class:ident, $doc:literal;
     $($word:ident),+; mul [$($Mul:ty),*], div [$($Div:ty),*]) => {
        $crate::quantity::class::quantity_class! {
            @define $Class, $doc; $($word),+;
            add [$Class], sub [$Class],
            mul [$crate::quantity::Ratio, $($Mul),*], div [$Class, $($Div),*], times [f64],
            {
                fn __neg__(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
                    (-self.0).into_python(py)
                }

                fn __abs__(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
                    self.0.abs().into_python(py)
                }

                /// `sum()` starts from 0; no other bare number can be added.
                fn __radd__(&self, other: &Bound<'_, PyAny>) -> PyResult<Py<PyAny>> {
                    if other.is_exact_instance_of::<pyo3::types::PyInt>() && other.extract::<i64>().is_ok_and(|n| n == 0) {
                        return self.0.into_python(other.py());
                    }
                    operate::refused(&self.0, "+", other)
                }
            }
        }
    };
    (affine $Class:ident, $doc:literal;
     $($word:ident),+; step $Step:ty, mul [$($Mul:ty),*], div [$($Div:ty),*], times [$($Times:ty)?]) => {
        $crate::quantity::class::quantity_class! {
            @define $Class, $doc; $($word),+;
            add [$Step], sub [$Class, $Step], mul [$($Mul),*], div [$($Div),*], times [$($Times)?],
            {
                fn __radd__(&self, other: &Bound<'_, PyAny>) -> PyResult<Py<PyAny>> {
                    operate::refused(&self.0, "+", other)
                }
            }
        }
    };
    (@define $Class:ident, $doc:literal; $($word:ident),+;
     add [$($Add:ty),*], sub [$($Sub:ty),*], mul [$($Mul:ty),* $(,)?], div [$($Div:ty),* $(,)?], times [$($Times:ty)?],
     { $($more:item)* }) => {
        #[doc = $doc]
        #[pyclass(frozen, extends = $crate::quantity::Quantity, module = "kingvalve")]
        #[derive(Clone, Copy)]
        pub struct $Class(pub kv::$Class);

        impl $crate::quantity::IntoPython for kv::$Class {
            fn into_python(self, py: Python<'_>) -> PyResult<Py<PyAny>> {
                let object = PyClassInitializer::from($crate::quantity::Quantity).add_subclass($Class(self));
                Ok(Bound::new(py, object)?.into_any().unbind())
            }
        }

        impl $crate::quantity::FromPython for kv::$Class {
            fn from_python(object: &Bound<'_, PyAny>) -> PyResult<Self> {
                Ok(object.extract::<$Class>()?.0)
            }
            fn held(object: &Bound<'_, PyAny>) -> Option<Self> {
                object.cast::<$Class>().ok().map(|found| found.get().0)
            }
        }

        impl $crate::quantity::operate::Holds for $Class {
            type Quantity = kv::$Class;
        }

        impl $crate::column::Kinded for kv::$Class {
            fn kind() -> &'static $crate::column::Kind {
                static KIND: $crate::column::Kind = $crate::column::Kind {
                    name: <kv::$Class as kv::Quantity>::NAME,
                    units: <kv::$Class as kv::Quantity>::units,
                    one: |py, base| <kv::$Class as kv::Quantity>::from_base(base).into_python(py),
                    named: kv::Unit::named::<kv::$Class>,
                };
                &KIND
            }
        }

        impl<'py> FromPyObject<'_, 'py> for $Class {
            type Error = PyErr;
            fn extract(object: Borrowed<'_, 'py, PyAny>) -> PyResult<Self> {
                match object.cast::<Self>() {
                    Ok(found) => Ok(*found.get()),
                    Err(_) => Err(refusal::argument(<kv::$Class as $crate::column::Kinded>::kind(), &object)),
                }
            }
        }

        impl $Class {
            /// Adds the class and its unit words to the module.
            pub fn register(module: &Bound<'_, PyModule>) -> PyResult<()> {
                module.add_class::<Self>()?;
                $(module.add_function(wrap_pyfunction!($word, module)?)?;)+
                Ok(())
            }
        }

        $(
            #[doc = concat!("So many ", stringify!($word), ": a ", stringify!($Class), ", or a column of it for an array.")]
            ///
            /// Parameters
            /// ----------
            /// value : float or array of float
            ///
            /// Returns
            /// -------
            #[doc = concat!(stringify!($Class), " or Column")]
            #[pyfunction]
            #[pyo3(signature = (value, /))]
            fn $word(value: &Bound<'_, PyAny>) -> PyResult<Py<PyAny>> {
                use $crate::column::Kinded;
                $crate::column::from_numbers(value, kv::$Class::kind(), stringify!($word), |py, number| {
                    kv::$word(number).into_python(py)
                })
            }
        )+

        #[pymethods]
        impl $Class {
            /// Reads a number with its unit.
            #[new]
            #[pyo3(signature = (text, /))]
            fn new(text: &str) -> PyResult<PyClassInitializer<Self>> {
                let value = text.parse().map_err($crate::error::raise)?;
                Ok(PyClassInitializer::from($crate::quantity::Quantity).add_subclass($Class(value)))
            }

            $(
                #[doc = concat!("How many ", stringify!($word), ".")]
                #[getter]
                fn $word(&self) -> f64 {
                    self.0.$word()
                }
            )+

            /// How many of the unit of that name, as in `.to("kPa")`.
            ///
            /// Parameters
            /// ----------
            /// unit : str
            ///     Its symbol or word; see ``units``.
            ///
            /// Returns
            /// -------
            /// float
            ///
            /// Raises
            /// ------
            /// Unreadable
            ///     A unit that is unknown, or of another kind.
            #[pyo3(signature = (unit, /))]
            fn to(&self, unit: &str) -> PyResult<f64> {
                Ok(self.0.in_unit(unit).map_err($crate::error::raise)?.value())
            }

            /// From a quantity of another library: anything with `magnitude` and `units` (as pint's) or with `value` and
            /// `unit` (as astropy's), and `to`.
            ///
            /// Parameters
            /// ----------
            /// quantity : object
            ///     One, or an array of them.
            ///
            /// Returns
            /// -------
            #[doc = concat!(stringify!($Class), " or Column")]
            ///
            /// Raises
            /// ------
            /// WrongKind
            ///     A quantity of another kind, or no quantity.
            #[staticmethod]
            #[pyo3(signature = (quantity, /))]
            fn of<'py>(quantity: &Bound<'py, PyAny>) -> PyResult<Bound<'py, PyAny>> {
                let module = quantity.py().import("kingvalve._interop")?;
                module.call_method1("read", (quantity, stringify!($Class)))
            }

            /// As a quantity of pint, in the SI base unit; of the given registry, or of pint's own.
            ///
            /// Parameters
            /// ----------
            /// registry : pint.UnitRegistry, optional
            ///
            /// Returns
            /// -------
            /// pint.Quantity
            #[pyo3(name = "to_pint", signature = (registry = None))]
            fn as_pint<'py>(&self, py: Python<'py>, registry: Option<Bound<'py, PyAny>>) -> PyResult<Bound<'py, PyAny>> {
                let module = py.import("kingvalve._interop")?;
                module.call_method1("to_pint", (kv::Quantity::base(self.0), stringify!($Class), registry))
            }

            /// The unit words of this kind, by symbol.
            ///
            /// Returns
            /// -------
            /// dict of str to str
            #[staticmethod]
            fn units() -> std::collections::BTreeMap<&'static str, &'static str> {
                <kv::$Class as kv::Quantity>::units().iter().map(|unit| (unit.symbol, unit.word)).collect()
            }

            /// Neither infinite nor NaN.
            #[getter]
            fn is_finite(&self) -> bool {
                self.0.is_finite()
            }

            fn __add__(&self, other: &Bound<'_, PyAny>) -> PyResult<Py<PyAny>> {
                const TERMS: &[Term] = &[$(Term::of::<$Add, <kv::$Class as std::ops::Add<Held<$Add>>>::Output>()),*];
                operate::binary(&self.0, &operate::ADD, TERMS, &[], other)
            }

            fn __sub__(&self, other: &Bound<'_, PyAny>) -> PyResult<Py<PyAny>> {
                const TERMS: &[Term] = &[$(Term::of::<$Sub, <kv::$Class as std::ops::Sub<Held<$Sub>>>::Output>()),*];
                operate::binary(&self.0, &operate::SUB, TERMS, &[], other)
            }

            fn __mul__(&self, other: &Bound<'_, PyAny>) -> PyResult<Py<PyAny>> {
                const TERMS: &[Term] = &[$(Term::of::<$Mul, <kv::$Class as std::ops::Mul<Held<$Mul>>>::Output>()),*];
                const TIMES: &[Make] = &[$(operate::made::<<kv::$Class as std::ops::Mul<$Times>>::Output>)?];
                operate::binary(&self.0, &operate::MUL, TERMS, TIMES, other)
            }

            fn __rmul__(&self, other: &Bound<'_, PyAny>) -> PyResult<Py<PyAny>> {
                self.__mul__(other)
            }

            fn __truediv__(&self, other: &Bound<'_, PyAny>) -> PyResult<Py<PyAny>> {
                const TERMS: &[Term] = &[$(Term::of::<$Div, <kv::$Class as std::ops::Div<Held<$Div>>>::Output>()),*];
                const TIMES: &[Make] = &[$(operate::made::<<kv::$Class as std::ops::Div<$Times>>::Output>)?];
                operate::binary(&self.0, &operate::DIV, TERMS, TIMES, other)
            }

            fn __rsub__(&self, other: &Bound<'_, PyAny>) -> PyResult<Py<PyAny>> {
                operate::reflected(&self.0, "subtracted from", other)
            }

            fn __rtruediv__(&self, other: &Bound<'_, PyAny>) -> PyResult<Py<PyAny>> {
                operate::reflected(&self.0, "divided into", other)
            }

            fn __richcmp__(&self, other: &Bound<'_, PyAny>, op: CompareOp) -> PyResult<Py<PyAny>> {
                let right = other.cast::<Self>().ok().map(|right| kv::Quantity::base(right.get().0));
                operate::compared(&self.0, right, op, other)
            }

            fn __hash__(&self) -> u64 {
                text::hash(self.0)
            }

            fn __str__(&self) -> String {
                self.0.to_string()
            }

            fn __repr__(&self) -> String {
                text::repr(self.0)
            }

            /// `f"{p:.1f}"` in the unit it is printed in, `f"{p:.1f kPa}"` in another.
            fn __format__(&self, py: Python<'_>, spec: &str) -> PyResult<String> {
                text::format(py, self.0, spec)
            }

            fn __reduce__<'py>(slf: &Bound<'py, Self>) -> PyResult<(Bound<'py, PyAny>, (f64,))> {
                text::reduce(slf.py(), slf.get().0)
            }

            $($more)*
        }
    };
}

pub(super) use quantity_class;

/// What the files of classes import.
pub(super) mod prelude {
    pub(in super::super) use super::super::operate::{self, Held, Make, Term};
    pub(in super::super) use super::super::{IntoPython, refusal, text};
    pub(in super::super) use super::quantity_class;
    pub(in super::super) use kingvalve::quantity as kv;
    pub(in super::super) use pyo3::basic::CompareOp;
    pub(in super::super) use pyo3::prelude::*;
}
