"""The acts that pages and the open interface offer, each described once for both."""

from inventory.web.acts.counting import COUNTING
from inventory.web.acts.past import PAST
from inventory.web.acts.scans import SCANS
from inventory.web.acts.steps import STEPS
from inventory.web.acts.stock import STOCK

ACTS = {act.name: act for act in (*COUNTING, *SCANS, *STOCK, *STEPS, *PAST)}

__all__ = ["ACTS"]
