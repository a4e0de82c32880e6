from __future__ import annotations

import pytest
from scipy.stats import norm, t

from inventory.core.receiving.t_values import Confidence, t_value

FREEDOMS = [*range(1, 131), 199, 201, 365, 999, 1001, 5000, 100_000]


@pytest.mark.parametrize("confidence", Confidence)
def test_every_value_is_scipys(confidence: Confidence) -> None:
    point = 0.5 + confidence / 200
    kept = [t_value(freedom, confidence) for freedom in FREEDOMS]
    assert kept == pytest.approx([t.ppf(point, freedom) for freedom in FREEDOMS], abs=1e-5)
    assert t_value(None, confidence) == pytest.approx(norm.ppf(point), abs=1e-6)


@pytest.mark.parametrize("freedom", [0, -1])
def test_no_freedom_has_no_value(freedom: int) -> None:
    with pytest.raises(ValueError, match=rf"^degrees of freedom are 1 or more, not {freedom}$"):
        t_value(freedom, Confidence.USUAL)
