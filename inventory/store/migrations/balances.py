"""The append trigger that keeps the balances; frozen with the first release."""

from __future__ import annotations

from alembic import op

_MAY_GO_BELOW = "('supplier', 'bought', 'made', 'opening', 'saw', 'difference')"

_SQLITE = f"""
CREATE TRIGGER movement_keeps_balance AFTER INSERT ON movement BEGIN
    INSERT INTO balance (kit, place, item, quantity)
    VALUES (NEW.kit, NEW.origin, NEW.item, -NEW.quantity)
    ON CONFLICT (kit, place, item) DO UPDATE SET quantity = quantity - NEW.quantity;
    INSERT INTO balance (kit, place, item, quantity)
    VALUES (NEW.kit, NEW.destination, NEW.item, NEW.quantity)
    ON CONFLICT (kit, place, item) DO UPDATE SET quantity = quantity + NEW.quantity;
    SELECT RAISE(ABORT, 'below zero') FROM balance
    JOIN place ON place.kit = balance.kit AND place.id = balance.place
    WHERE balance.kit = NEW.kit AND balance.place = NEW.origin AND balance.item = NEW.item
    AND balance.quantity < 0 AND place.kind NOT IN {_MAY_GO_BELOW};
END
"""

_POSTGRESQL = f"""
CREATE FUNCTION keep_balance() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
    INSERT INTO balance AS b (kit, place, item, quantity)
    VALUES (NEW.kit, NEW.origin, NEW.item, -NEW.quantity)
    ON CONFLICT (kit, place, item) DO UPDATE SET quantity = b.quantity - NEW.quantity;
    INSERT INTO balance AS b (kit, place, item, quantity)
    VALUES (NEW.kit, NEW.destination, NEW.item, NEW.quantity)
    ON CONFLICT (kit, place, item) DO UPDATE SET quantity = b.quantity + NEW.quantity;
    IF EXISTS (
        SELECT 1 FROM balance JOIN place ON place.kit = balance.kit AND place.id = balance.place
        WHERE balance.kit = NEW.kit AND balance.place = NEW.origin AND balance.item = NEW.item
        AND balance.quantity < 0 AND place.kind NOT IN {_MAY_GO_BELOW}
    ) THEN
        RAISE EXCEPTION 'below zero';
    END IF;
    RETURN NULL;
END $$
"""


def keep_balances() -> None:
    """Let each movement change the balance of its two places, and refuse one below zero."""
    if op.get_bind().dialect.name == "sqlite":
        op.execute(_SQLITE)
        return
    op.execute(_POSTGRESQL)
    op.execute(
        "CREATE TRIGGER movement_keeps_balance AFTER INSERT ON movement "
        "FOR EACH ROW EXECUTE FUNCTION keep_balance()"
    )
