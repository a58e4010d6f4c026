//! The one macro of the room: a quantity from its table of units.

/// Defines a quantity over a `uom` quantity. The first unit of the table is the one it is printed in.
macro_rules! quantity {
    (
        $(#[$doc:meta])*
        $Type:ident, $name:literal, uom $uom:ident, difference $Difference:ident, mistaken $mistaken:expr;
        $( $word:ident, $symbol:literal, [$($alias:literal),*], $factor:expr $(, offset $offset:expr)?; )+
    ) => {
        $(#[$doc])*
        #[derive(Clone, Copy, PartialEq, PartialOrd)]
        #[repr(transparent)]
        pub struct $Type(uom::si::f64::$uom);

        impl $Type {
            const UNITS: &'static [$crate::quantity::Unit] = &[$(
                $crate::quantity::Unit {
                    symbol: $symbol,
                    aliases: &[$($alias),*],
                    word: stringify!($word),
                    factor: $factor,
                    offset: 0.0 $(+ $offset)?,
                }
            ),+];

            #[inline]
            pub(crate) const fn from_si(value: f64) -> Self {
                $Type(uom::si::f64::$uom {
                    dimension: std::marker::PhantomData,
                    units: std::marker::PhantomData,
                    value,
                })
            }

            #[inline]
            pub(crate) const fn si(self) -> f64 {
                self.0.value
            }

            $(
                #[doc = concat!("How many ", $symbol, " this ", $name, " is.")]
                #[inline]
                pub const fn $word(self) -> f64 {
                    $crate::quantity::unit::scaled_down(self.si(), $factor) $(- $offset)?
                }
            )+

            /// The same quantity, to be shown in the unit of that name.
            ///
            /// # Errors
            /// When this quantity has no such unit; the text lists those it has.
            pub fn in_unit(self, unit: &str) -> $crate::Result<$crate::quantity::InUnit<Self>> {
                $crate::quantity::InUnit::of(self, unit)
            }

            /// Neither infinite nor NaN.
            pub const fn is_finite(self) -> bool {
                self.si().is_finite()
            }

            /// The smaller of the two.
            #[must_use]
            pub const fn min(self, other: Self) -> Self {
                Self::from_si(self.si().min(other.si()))
            }

            /// The larger of the two.
            #[must_use]
            pub const fn max(self, other: Self) -> Self {
                Self::from_si(self.si().max(other.si()))
            }
        }

        $(
            #[doc = concat!("The ", $name, " of `value` ", $symbol, ".")]
            #[inline]
            pub const fn $word(value: f64) -> $Type {
                $Type::from_si($crate::quantity::unit::scaled_up(value $(+ $offset)?, $factor))
            }
        )+

        impl $crate::quantity::sealed::Sealed for $Type {
            fn mistaken(unit: &str) -> Option<String> {
                let mistaken: fn(&str) -> Option<String> = $mistaken;
                mistaken(unit)
            }
        }

        impl $crate::quantity::Quantity for $Type {
            type Difference = $Difference;
            const NAME: &'static str = $name;
            fn units() -> &'static [$crate::quantity::Unit] {
                Self::UNITS
            }
            #[inline]
            fn from_base(si: f64) -> Self {
                Self::from_si(si)
            }
            #[inline]
            fn base(self) -> f64 {
                self.si()
            }
        }

        impl From<uom::si::f64::$uom> for $Type {
            fn from(quantity: uom::si::f64::$uom) -> Self {
                $Type(quantity)
            }
        }

        impl From<$Type> for uom::si::f64::$uom {
            fn from(quantity: $Type) -> Self {
                quantity.0
            }
        }

        impl std::fmt::Display for $Type {
            fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
                match Self::UNITS.first() {
                    Some(unit) => $crate::quantity::text::write(f, self.si(), unit),
                    None => Ok(()),
                }
            }
        }

        impl std::fmt::Debug for $Type {
            fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
                write!(f, concat!(stringify!($Type), "({})"), self)
            }
        }

        impl std::str::FromStr for $Type {
            type Err = $crate::Error;
            fn from_str(text: &str) -> $crate::Result<Self> {
                $crate::quantity::text::read(text)
            }
        }

        impl serde::Serialize for $Type {
            fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
                $crate::quantity::json::serialize(*self, serializer)
            }
        }

        impl<'de> serde::Deserialize<'de> for $Type {
            fn deserialize<D: serde::Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
                $crate::quantity::json::deserialize(deserializer)
            }
        }

        impl schemars::JsonSchema for $Type {
            fn schema_name() -> std::borrow::Cow<'static, str> {
                stringify!($Type).into()
            }
            fn json_schema(_: &mut schemars::SchemaGenerator) -> schemars::Schema {
                $crate::quantity::schema::of::<$Type>()
            }
        }
    };
}

/// Arithmetic of a quantity that has a zero of its own: sums, differences, multiples, and the ratio of two.
macro_rules! additive {
    ($($Type:ident),+) => {$(
        impl std::ops::Add for $Type {
            type Output = $Type;
            #[inline]
            fn add(self, other: $Type) -> $Type {
                $Type::from_si(self.si() + other.si())
            }
        }
        impl std::ops::Sub for $Type {
            type Output = $Type;
            #[inline]
            fn sub(self, other: $Type) -> $Type {
                $Type::from_si(self.si() - other.si())
            }
        }
        impl std::ops::AddAssign for $Type {
            #[inline]
            fn add_assign(&mut self, other: $Type) {
                *self = *self + other;
            }
        }
        impl std::ops::SubAssign for $Type {
            #[inline]
            fn sub_assign(&mut self, other: $Type) {
                *self = *self - other;
            }
        }
        impl std::ops::Neg for $Type {
            type Output = $Type;
            #[inline]
            fn neg(self) -> $Type {
                $Type::from_si(-self.si())
            }
        }
        impl std::iter::Sum for $Type {
            fn sum<I: Iterator<Item = $Type>>(items: I) -> $Type {
                items.fold($Type::from_si(0.0), |total, item| total + item)
            }
        }
        impl $Type {
            /// None of it.
            pub const ZERO: $Type = $Type::from_si(0.0);

            /// The magnitude.
            #[must_use]
            pub const fn abs(self) -> $Type {
                $Type::from_si(self.si().abs())
            }
        }
        $crate::quantity::define::scalable!($Type);
    )+};
}

/// Multiples of a quantity and the ratio of two.
macro_rules! scalable {
    ($Type:ident) => {
        impl std::ops::Mul<f64> for $Type {
            type Output = $Type;
            #[inline]
            fn mul(self, by: f64) -> $Type {
                $Type::from_si(self.si() * by)
            }
        }
        impl std::ops::Mul<$Type> for f64 {
            type Output = $Type;
            #[inline]
            fn mul(self, quantity: $Type) -> $Type {
                quantity * self
            }
        }
        impl std::ops::Div<f64> for $Type {
            type Output = $Type;
            #[inline]
            fn div(self, by: f64) -> $Type {
                $Type::from_si(self.si() / by)
            }
        }
        impl std::ops::Div for $Type {
            type Output = f64;
            #[inline]
            fn div(self, other: $Type) -> f64 {
                self.si() / other.si()
            }
        }
    };
}

/// Arithmetic of a quantity with an arbitrary zero: two of them differ by a `$Difference`.
macro_rules! affine {
    ($Type:ident, $Difference:ident, $Step:ident) => {
        impl std::ops::Sub for $Type {
            type Output = $Difference;
            #[inline]
            fn sub(self, other: $Type) -> $Difference {
                $Difference::from_si(self.si() - other.si())
            }
        }
        impl std::ops::Sub<$Difference> for $Type {
            type Output = $Type;
            #[inline]
            fn sub(self, step: $Difference) -> $Type {
                $Type::from_si(self.si() - step.si())
            }
        }
        impl<D: $Step> std::ops::Add<D> for $Type {
            type Output = $Type;
            #[inline]
            fn add(self, step: D) -> $Type {
                $Type::from_si(self.si() + step.base())
            }
        }
    };
}

/// `A · B = C`, and the divisions that follow from it.
macro_rules! product {
    ($($A:ident * $B:ident = $C:ident;)+) => {$(
        $crate::quantity::define::one_way!($A * $B = $C);
        $crate::quantity::define::one_way!($B * $A = $C);
    )+};
}

macro_rules! one_way {
    ($A:ident * $B:ident = $C:ident) => {
        impl std::ops::Mul<$B> for $A {
            type Output = $C;
            #[inline]
            fn mul(self, other: $B) -> $C {
                $C::from_si(self.si() * other.si())
            }
        }
        impl std::ops::Div<$A> for $C {
            type Output = $B;
            #[inline]
            fn div(self, other: $A) -> $B {
                $B::from_si(self.si() / other.si())
            }
        }
    };
}

pub(super) use {additive, affine, one_way, product, quantity, scalable};
