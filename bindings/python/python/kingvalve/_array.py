"""Arrays as numpy sees them: the only module that imports numpy, and only when an array is used."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from ._errors import WrongKind

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray


def floats(values: Any) -> NDArray[np.float64]:
    """As float64, C-contiguous: such an array as it is, anything else copied; what is missing becomes NaN."""
    import numpy as np

    if type(values) is np.ndarray and values.dtype == np.float64:
        return np.require(values, np.float64, ["C", "A"])
    array: NDArray[Any]
    if isinstance(values, np.ma.MaskedArray):
        array = np.ma.filled(values.astype(np.float64), np.nan) if values.dtype.kind in "fiuO" else values.data
    else:
        array = _to_numpy(values)
    if array.dtype.kind == "O":
        strange = next((each for each in array.flat if isinstance(each, (str, bytes, bool))), None)
        if strange is not None:
            raise WrongKind(f"expected numbers, got {strange!r} among them")
    elif array.dtype.kind not in "fiu":
        raise WrongKind(f"expected numbers, got an array of {array.dtype}")
    try:
        return np.require(array, np.float64, ["C", "A"])
    except (TypeError, ValueError) as failure:
        raise WrongKind(f"expected numbers, got something else among them: {failure}") from None


def _to_numpy(values: Any) -> NDArray[Any]:
    import numpy as np

    if hasattr(values, "to_numpy"):
        for how in ({"dtype": np.float64, "na_value": np.nan}, {"zero_copy_only": False}, {}):
            try:
                return np.asarray(values.to_numpy(**how))
            except TypeError:
                continue
            except ValueError:
                break
    try:
        return np.asarray(values)
    except ValueError as failure:
        raise WrongKind(f"expected numbers in a regular shape: {failure}") from None


def together(*values: NDArray[np.float64] | None) -> tuple[tuple[int, ...], list[NDArray[np.float64] | None]]:
    """The common shape by numpy's rules, and each array in it; ``None`` stands for a number and stays."""
    import numpy as np

    arrays = [each for each in values if each is not None]
    if all(each.shape == arrays[0].shape for each in arrays):
        return arrays[0].shape, list(values)
    try:
        shape = np.broadcast_shapes(*(each.shape for each in arrays))
    except ValueError:
        shapes = " and ".join(str(each.shape) for each in arrays)
        raise WrongKind(f"columns of shapes {shapes} do not go together") from None
    return shape, [None if each is None else np.ascontiguousarray(np.broadcast_to(each, shape)) for each in values]


def place(row: int, shape: tuple[int, ...]) -> tuple[int, ...]:
    """Where the row is in an array of several dimensions."""
    import numpy as np

    return tuple(int(each) for each in np.unravel_index(row, shape))
