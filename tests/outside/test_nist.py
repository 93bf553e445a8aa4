"""The regression at the heart of the effects against certified numbers: NIST StRD linear least squares.

Norris (36 pairs, ozone monitors) and Longley (16 years, nearly collinear; the hard one). A single grid cell with
C = 1 is ordinary least squares. Certified values: NIST Statistical Reference Datasets, public domain.
"""

from __future__ import annotations

import numpy as np
import pytest
import statsmodels.api as sm

from reportgen.effects.gls import Fit, fit, grid_from

# NIST StRD, Norris.dat: y, x
NORRIS = """
0.1 0.2  338.8 337.4  118.1 118.2  888.0 884.6  9.2 10.1  228.1 226.5  668.5 666.3  998.5 996.3  449.1 448.6
778.9 777.0  559.2 558.2  0.3 0.4  0.1 0.6  778.1 775.5  668.8 666.9  339.3 338.0  448.9 447.5  10.8 11.6
557.7 556.0  228.3 228.1  998.0 995.8  888.8 887.6  119.6 120.2  0.3 0.3  0.6 0.3  557.6 556.8  339.3 339.1
888.0 887.2  998.5 999.0  778.9 779.0  10.2 11.1  117.6 118.3  228.9 229.2  668.4 669.1  449.2 448.9  0.2 0.5
"""


def _ordinary(y: np.ndarray, x: np.ndarray) -> Fit:
    return fit(y, np.column_stack([np.ones(len(y)), x]), grid_from(np.eye(len(y))[None]))


def _errors(found: Fit) -> np.ndarray:
    return np.sqrt(np.diagonal(found.covariance()[0]))


def test_norris_to_nine_figures() -> None:
    """A well-conditioned line: coefficients, standard errors, residual deviation as certified, rel 1e-9."""
    pairs = np.array(NORRIS.split(), dtype=float).reshape(-1, 2)
    found = _ordinary(pairs[:, 0], pairs[:, 1:])
    assert found.coefficients[0] == pytest.approx([-0.262323073774029, 1.00211681802045], rel=1e-9)
    assert _errors(found) == pytest.approx([0.232818234301152, 0.429796848199937e-03], rel=1e-9)
    assert np.sqrt(found.rss[0] / found.dof) == pytest.approx(0.884796396144373, rel=1e-9)


def test_longley_to_seven_figures() -> None:
    """Nearly collinear columns (condition about 5e9) still give the certified figures, rel 1e-7."""
    data = sm.datasets.longley.load_pandas()
    found = _ordinary(data.endog.to_numpy(float), data.exog.to_numpy(float))
    assert found.coefficients[0, 1] == pytest.approx(15.0618722713733, rel=1e-7)
    assert found.coefficients[0, 5] == pytest.approx(-0.0511041056535807, rel=1e-7)
    assert _errors(found)[6] == pytest.approx(455.478499142212, rel=1e-7)
    assert np.sqrt(found.rss[0] / found.dof) == pytest.approx(304.854073561965, rel=1e-7)
