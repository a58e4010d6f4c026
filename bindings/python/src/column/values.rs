//! The numbers of a Python array where they lie, and a new array to write to.
//!
//! The only hand-written `unsafe` of the package: arrays are reached by Python's buffer protocol, so that the numbers
//! are neither copied nor tied to one version of numpy.

use std::ptr::NonNull;

use pyo3::buffer::PyBuffer;
use pyo3::prelude::*;

/// The float64 numbers of a C-contiguous array, kept where they are while this lives.
pub struct Numbers {
    start: NonNull<f64>,
    length: usize,
    _held: PyBuffer<f64>,
}

// SAFETY: reading numbers needs no interpreter, and the buffer keeps the memory where it is. Another thread that writes
// to the same array meanwhile makes the numbers it writes unknowable, as it does in numpy.
unsafe impl Send for Numbers {}
// SAFETY: as above.
unsafe impl Sync for Numbers {}

impl Numbers {
    /// Of an array that `_array.floats` made or passed.
    pub fn of(array: &Bound<'_, PyAny>) -> PyResult<Self> {
        let held = PyBuffer::<f64>::get(array)?;
        let (start, length) = match held.as_slice_ptr() {
            Some(numbers) => (numbers.cast(), numbers.len()),
            None => (NonNull::dangling(), 0),
        };
        Ok(Numbers { start, length, _held: held })
    }

    /// How many.
    pub fn len(&self) -> usize {
        self.length
    }

    /// Copies those from `first` on into `block`, as far as they go.
    pub fn copy(&self, first: usize, block: &mut [f64]) {
        let count = block.len().min(self.length.saturating_sub(first));
        if count > 0 {
            // SAFETY: first + count <= length, the array is aligned and contiguous (`as_slice_ptr`), and `block` is
            // ours alone.
            unsafe { self.start.add(first).copy_to_nonoverlapping(NonNull::from(block).cast(), count) };
        }
    }

    /// Copies `block` into those from `first` on, as far as they go. Only for an array made by `empty`.
    fn write(&self, first: usize, block: &[f64]) {
        let count = block.len().min(self.length.saturating_sub(first));
        if count > 0 {
            // SAFETY: as in `copy`; the array is new, writable and known to nobody else.
            unsafe { self.start.add(first).copy_from_nonoverlapping(NonNull::from(block).cast(), count) };
        }
    }
}

/// A new array, to be filled.
pub struct Fresh {
    array: Py<PyAny>,
    numbers: Numbers,
}

impl Fresh {
    /// Of that shape, its numbers not yet set.
    pub fn new(py: Python<'_>, shape: &Bound<'_, PyAny>) -> PyResult<Self> {
        let array = py.import("numpy")?.call_method1("empty", (shape,))?;
        Ok(Fresh { numbers: Numbers::of(&array)?, array: array.unbind() })
    }

    /// How many numbers it has.
    pub fn len(&self) -> usize {
        self.numbers.len()
    }

    /// Sets those from `first` on.
    pub fn set(&mut self, first: usize, block: &[f64]) {
        self.numbers.write(first, block);
    }

    /// The array.
    pub fn done(self) -> Py<PyAny> {
        self.array
    }
}
