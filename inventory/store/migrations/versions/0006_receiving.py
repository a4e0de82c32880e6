"""Deliveries and photographs; claims, what is promised, what came of it."""

from __future__ import annotations

from inventory.store.migrations.append_only import make_append_only
from inventory.store.migrations.sql import create

revision = "0006"
down_revision = "0005"

_TABLES = (
    """
CREATE TABLE delivery (
    kit INTEGER NOT NULL,
    id INTEGER NOT NULL,
    slip INTEGER NOT NULL,
    CONSTRAINT pk_delivery PRIMARY KEY (kit, id),
    CONSTRAINT fk_delivery_kit_slip FOREIGN KEY(kit, slip) REFERENCES slip (kit, id)
)
""",
    """
CREATE TABLE delivery_facts (
    kit INTEGER NOT NULL,
    id INTEGER NOT NULL,
    slip INTEGER NOT NULL,
    delivery INTEGER NOT NULL,
    supplier TEXT DEFAULT '' NOT NULL,
    carrier TEXT DEFAULT '' NOT NULL,
    carriage TEXT DEFAULT '' NOT NULL,
    sale TEXT DEFAULT '' NOT NULL,
    order_number TEXT DEFAULT '' NOT NULL,
    invoice TEXT DEFAULT '' NOT NULL,
    bill_of_lading TEXT DEFAULT '' NOT NULL,
    pro_number TEXT DEFAULT '' NOT NULL,
    delivered_on TEXT DEFAULT '' NOT NULL,
    place TEXT DEFAULT '' NOT NULL,
    country TEXT DEFAULT '' NOT NULL,
    region TEXT DEFAULT '' NOT NULL,
    packages_advised INTEGER DEFAULT 0 NOT NULL,
    packages_counted INTEGER DEFAULT 0 NOT NULL,
    seals TEXT DEFAULT '' NOT NULL,
    late INTEGER DEFAULT 0 NOT NULL,
    window_days INTEGER DEFAULT 0 NOT NULL,
    window_count TEXT DEFAULT 'calendar' NOT NULL,
    dates TEXT DEFAULT '{}' NOT NULL,
    CONSTRAINT pk_delivery_facts PRIMARY KEY (kit, id),
    CONSTRAINT ck_delivery_facts_packages CHECK (packages_advised >= 0 AND packages_counted >= 0),
    CONSTRAINT fk_delivery_facts_kit_slip FOREIGN KEY(kit, slip) REFERENCES slip (kit, id),
    CONSTRAINT fk_delivery_facts_kit_delivery FOREIGN KEY(kit, delivery) REFERENCES delivery (kit, id)
)
""",
    """
CREATE TABLE delivery_exception (
    kit INTEGER NOT NULL,
    id INTEGER NOT NULL,
    slip INTEGER NOT NULL,
    delivery INTEGER NOT NULL,
    crate TEXT DEFAULT '' NOT NULL,
    kind TEXT NOT NULL,
    words TEXT NOT NULL,
    on_receipt INTEGER DEFAULT 0 NOT NULL,
    CONSTRAINT pk_delivery_exception PRIMARY KEY (kit, id),
    CONSTRAINT fk_delivery_exception_kit_slip FOREIGN KEY(kit, slip) REFERENCES slip (kit, id),
    CONSTRAINT fk_delivery_exception_kit_delivery FOREIGN KEY(kit, delivery) REFERENCES delivery (kit, id)
)
""",
    """
CREATE TABLE delivery_list (
    kit INTEGER NOT NULL,
    id INTEGER NOT NULL,
    slip INTEGER NOT NULL,
    delivery INTEGER NOT NULL,
    packing_list INTEGER NOT NULL,
    CONSTRAINT pk_delivery_list PRIMARY KEY (kit, id),
    CONSTRAINT fk_delivery_list_kit_slip FOREIGN KEY(kit, slip) REFERENCES slip (kit, id),
    CONSTRAINT fk_delivery_list_kit_delivery FOREIGN KEY(kit, delivery) REFERENCES delivery (kit, id),
    CONSTRAINT fk_delivery_list_kit_packing_list FOREIGN KEY(kit, packing_list) REFERENCES packing_list (kit, id)
)
""",
    """
CREATE TABLE photo (
    kit INTEGER NOT NULL,
    id INTEGER NOT NULL,
    slip INTEGER NOT NULL,
    sha256 TEXT NOT NULL,
    kind TEXT NOT NULL,
    name TEXT DEFAULT '' NOT NULL,
    width INTEGER NOT NULL,
    height INTEGER NOT NULL,
    caption TEXT DEFAULT '' NOT NULL,
    delivery INTEGER,
    crate TEXT DEFAULT '' NOT NULL,
    part INTEGER,
    CONSTRAINT pk_photo PRIMARY KEY (kit, id),
    CONSTRAINT fk_photo_kit_slip FOREIGN KEY(kit, slip) REFERENCES slip (kit, id),
    CONSTRAINT fk_photo_kit_delivery FOREIGN KEY(kit, delivery) REFERENCES delivery (kit, id),
    CONSTRAINT fk_photo_kit_part FOREIGN KEY(kit, part) REFERENCES part (kit, id)
)
""",
    """
CREATE TABLE report (
    kit INTEGER NOT NULL,
    id INTEGER NOT NULL,
    slip INTEGER NOT NULL,
    delivery INTEGER,
    addressee TEXT NOT NULL,
    content TEXT NOT NULL,
    CONSTRAINT pk_report PRIMARY KEY (kit, id),
    CONSTRAINT fk_report_kit_slip FOREIGN KEY(kit, slip) REFERENCES slip (kit, id),
    CONSTRAINT fk_report_kit_delivery FOREIGN KEY(kit, delivery) REFERENCES delivery (kit, id)
)
""",
    """
CREATE TABLE report_event (
    kit INTEGER NOT NULL,
    id INTEGER NOT NULL,
    slip INTEGER NOT NULL,
    report INTEGER NOT NULL,
    event TEXT NOT NULL,
    day TEXT NOT NULL,
    how TEXT DEFAULT '' NOT NULL,
    words TEXT DEFAULT '' NOT NULL,
    CONSTRAINT pk_report_event PRIMARY KEY (kit, id),
    CONSTRAINT fk_report_event_kit_slip FOREIGN KEY(kit, slip) REFERENCES slip (kit, id),
    CONSTRAINT fk_report_event_kit_report FOREIGN KEY(kit, report) REFERENCES report (kit, id)
)
""",
    """
CREATE TABLE expected (
    kit INTEGER NOT NULL,
    id INTEGER NOT NULL,
    slip INTEGER NOT NULL,
    report INTEGER NOT NULL,
    kind TEXT NOT NULL,
    part INTEGER NOT NULL,
    printed TEXT NOT NULL,
    hand TEXT NOT NULL,
    length INTEGER DEFAULT 0 NOT NULL,
    pieces INTEGER NOT NULL,
    packing_list INTEGER,
    sheet TEXT DEFAULT '' NOT NULL,
    "row" INTEGER DEFAULT 0 NOT NULL,
    crate TEXT DEFAULT '' NOT NULL,
    bag TEXT DEFAULT '' NOT NULL,
    CONSTRAINT pk_expected PRIMARY KEY (kit, id),
    CONSTRAINT ck_expected_pieces CHECK (pieces > 0),
    CONSTRAINT fk_expected_kit_slip FOREIGN KEY(kit, slip) REFERENCES slip (kit, id),
    CONSTRAINT fk_expected_kit_report FOREIGN KEY(kit, report) REFERENCES report (kit, id),
    CONSTRAINT fk_expected_kit_part FOREIGN KEY(kit, part) REFERENCES part (kit, id),
    CONSTRAINT fk_expected_kit_packing_list FOREIGN KEY(kit, packing_list) REFERENCES packing_list (kit, id)
)
""",
    """
CREATE TABLE promise (
    kit INTEGER NOT NULL,
    id INTEGER NOT NULL,
    slip INTEGER NOT NULL,
    part INTEGER NOT NULL,
    hand TEXT NOT NULL,
    length INTEGER DEFAULT 0 NOT NULL,
    pieces INTEGER NOT NULL,
    promised TEXT NOT NULL,
    latest TEXT DEFAULT '' NOT NULL,
    words TEXT DEFAULT '' NOT NULL,
    report INTEGER,
    CONSTRAINT pk_promise PRIMARY KEY (kit, id),
    CONSTRAINT ck_promise_pieces CHECK (pieces >= 0),
    CONSTRAINT fk_promise_kit_slip FOREIGN KEY(kit, slip) REFERENCES slip (kit, id),
    CONSTRAINT fk_promise_kit_part FOREIGN KEY(kit, part) REFERENCES part (kit, id),
    CONSTRAINT fk_promise_kit_report FOREIGN KEY(kit, report) REFERENCES report (kit, id)
)
""",
    """
CREATE TABLE arrival (
    kit INTEGER NOT NULL,
    id INTEGER NOT NULL,
    slip INTEGER NOT NULL,
    line INTEGER NOT NULL,
    closes INTEGER,
    expected INTEGER,
    pieces INTEGER NOT NULL,
    CONSTRAINT pk_arrival PRIMARY KEY (kit, id),
    CONSTRAINT ck_arrival_pieces CHECK (pieces > 0),
    CONSTRAINT ck_arrival_one_end CHECK ((closes IS NULL) <> (expected IS NULL)),
    CONSTRAINT fk_arrival_kit_slip FOREIGN KEY(kit, slip) REFERENCES slip (kit, id),
    CONSTRAINT fk_arrival_kit_line FOREIGN KEY(kit, line) REFERENCES line (kit, id),
    CONSTRAINT fk_arrival_kit_closes FOREIGN KEY(kit, closes) REFERENCES line (kit, id),
    CONSTRAINT fk_arrival_kit_expected FOREIGN KEY(kit, expected) REFERENCES expected (kit, id)
)
""",
    """
CREATE TABLE return_note (
    kit INTEGER NOT NULL,
    id INTEGER NOT NULL,
    slip INTEGER NOT NULL,
    recipient TEXT NOT NULL,
    reference TEXT DEFAULT '' NOT NULL,
    carrier TEXT DEFAULT '' NOT NULL,
    tracking TEXT DEFAULT '' NOT NULL,
    wanted TEXT DEFAULT '' NOT NULL,
    report INTEGER,
    CONSTRAINT pk_return_note PRIMARY KEY (kit, id),
    CONSTRAINT fk_return_note_kit_slip FOREIGN KEY(kit, slip) REFERENCES slip (kit, id),
    CONSTRAINT fk_return_note_kit_report FOREIGN KEY(kit, report) REFERENCES report (kit, id)
)
""",
)
_INDEXES = (
    "CREATE INDEX ix_delivery_exception_kit_delivery ON delivery_exception (kit, delivery)",
    "CREATE INDEX ix_delivery_facts_kit_delivery ON delivery_facts (kit, delivery)",
    "CREATE INDEX ix_promise_kit_part ON promise (kit, part)",
)


def upgrade() -> None:
    """Make the tables, their indexes and their triggers."""
    for statement in (*_TABLES, *_INDEXES):
        create(statement)
    make_append_only("delivery", "kit id")
    make_append_only("delivery_facts", "kit id")
    make_append_only("delivery_exception", "kit id")
    make_append_only("delivery_list", "kit id")
    make_append_only("photo", "kit id")
    make_append_only("report", "kit id")
    make_append_only("report_event", "kit id")
    make_append_only("expected", "kit id")
    make_append_only("promise", "kit id")
    make_append_only("arrival", "kit id")
    make_append_only("return_note", "kit id")
