"""Pictures sent by a phone, opened with care."""

from inventory.store.pictures import MOST_BYTES, grey_picture

__all__ = ["MOST_BYTES", "grey_picture"]
