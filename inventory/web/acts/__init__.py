"""The acts that pages and the open interface offer, each described once for both."""

from inventory.web.acts.claims import CLAIMS
from inventory.web.acts.counting import COUNTING
from inventory.web.acts.cuts import CUTS
from inventory.web.acts.deliveries import DELIVERIES
from inventory.web.acts.lots import LOTS
from inventory.web.acts.measuring import MEASURING
from inventory.web.acts.past import PAST
from inventory.web.acts.scans import SCANS
from inventory.web.acts.steps import STEPS
from inventory.web.acts.stock import STOCK
from inventory.web.acts.weighing import WEIGHING

_RECEIVING = (*COUNTING, *WEIGHING, *MEASURING, *DELIVERIES, *CLAIMS)
_EVERY = (*_RECEIVING, *SCANS, *STOCK, *CUTS, *LOTS, *STEPS, *PAST)
ACTS = {act.name: act for act in _EVERY}

__all__ = ["ACTS"]
