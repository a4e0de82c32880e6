"""Pictures sent by a phone, opened with care."""

from inventory.store.receiving.pictures import MOST_BYTES, grey_picture

__all__ = ["MOST_BYTES", "grey_picture"]
