// Without optimising, as tests run, a call for every sum takes ten times as long as the sum.
#![allow(clippy::inline_always)]

use std::ops::{Add, AddAssign, Div, Mul, Sub, SubAssign};

// Written here: the lanes of the registry are of one kind of number and a fixed width, not of several loads at once.
/// What the operator computes with: single precision to precondition, double for the solution; one number, or one for
/// each of several loads that are solved together, which reads every matrix once for all of them.
pub(super) trait Number:
    Copy
    + Default
    + PartialEq
    + Send
    + Sync
    + Add<Output = Self>
    + Sub<Output = Self>
    + Mul<Self::Factor, Output = Self>
    + Div<Self::Factor, Output = Self>
    + AddAssign
    + SubAssign
{
    /// One number of its precision.
    type Factor: Number<Factor = Self::Factor> + Mul<Output = Self::Factor> + From<f32> + Into<f64>;

    /// The same in double precision.
    type Wide: Number<Factor = f64, Wide = Self::Wide>;

    /// Loads solved together.
    const LOADS: usize;

    /// In double precision.
    fn wide(self) -> Self::Wide;

    /// Rounded from double precision.
    fn narrow(wide: Self::Wide) -> Self;

    /// Product load by load.
    fn times(self, other: Self) -> Self;

    /// The number of one load.
    fn of(self, load: usize) -> Self::Factor;

    /// One number a load.
    fn each(number: impl FnMut(usize) -> Self::Factor) -> Self;
}

macro_rules! alone {
    ($number:ty) => {
        impl Number for $number {
            type Factor = $number;
            type Wide = f64;
            const LOADS: usize = 1;

            fn wide(self) -> f64 {
                self.into()
            }

            fn narrow(wide: f64) -> Self {
                wide as Self
            }

            fn times(self, other: Self) -> Self {
                self * other
            }

            fn of(self, _: usize) -> Self {
                self
            }

            fn each(mut number: impl FnMut(usize) -> Self) -> Self {
                number(0)
            }
        }
    };
}

alone!(f32);
alone!(f64);

/// Loads that are solved together where there are many: as many numbers as fill the vector registers.
pub const TOGETHER: usize = 8;

/// One number for each of several loads.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
#[repr(transparent)]
pub(super) struct Many<T>([T; TOGETHER]);

impl<T: Copy + Add<Output = T>> Add for Many<T> {
    type Output = Self;

    #[inline(always)]
    fn add(mut self, other: Self) -> Self {
        for (a, b) in self.0.iter_mut().zip(other.0) {
            *a = *a + b;
        }
        self
    }
}

impl<T: Copy + Sub<Output = T>> Sub for Many<T> {
    type Output = Self;

    #[inline(always)]
    fn sub(mut self, other: Self) -> Self {
        for (a, b) in self.0.iter_mut().zip(other.0) {
            *a = *a - b;
        }
        self
    }
}

impl<T: Copy + Mul<Output = T>> Mul<T> for Many<T> {
    type Output = Self;

    #[inline(always)]
    fn mul(mut self, factor: T) -> Self {
        for a in &mut self.0 {
            *a = *a * factor;
        }
        self
    }
}

impl<T: Copy + Div<Output = T>> Div<T> for Many<T> {
    type Output = Self;

    #[inline(always)]
    fn div(mut self, factor: T) -> Self {
        for a in &mut self.0 {
            *a = *a / factor;
        }
        self
    }
}

impl<T: Copy + Add<Output = T>> AddAssign for Many<T> {
    #[inline(always)]
    fn add_assign(&mut self, other: Self) {
        *self = *self + other;
    }
}

impl<T: Copy + Sub<Output = T>> SubAssign for Many<T> {
    #[inline(always)]
    fn sub_assign(&mut self, other: Self) {
        *self = *self - other;
    }
}

macro_rules! together {
    ($number:ty) => {
        impl Number for Many<$number> {
            type Factor = $number;
            type Wide = Many<f64>;
            const LOADS: usize = TOGETHER;

            fn wide(self) -> Many<f64> {
                Many(self.0.map(f64::from))
            }

            fn narrow(wide: Many<f64>) -> Self {
                Self(wide.0.map(|value| value as $number))
            }

            fn times(mut self, other: Self) -> Self {
                for (a, b) in self.0.iter_mut().zip(other.0) {
                    *a *= b;
                }
                self
            }

            fn of(self, load: usize) -> $number {
                self.0[load]
            }

            fn each(number: impl FnMut(usize) -> $number) -> Self {
                Self(std::array::from_fn(number))
            }
        }
    };
}

together!(f32);
together!(f64);
