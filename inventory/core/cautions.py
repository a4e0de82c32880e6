"""Cautions: what the program says wherever somebody could rely on it too far."""

from __future__ import annotations

DATES = (
    "A reminder, not legal advice. The contract, the waybill, the carrier's own rules and the law "
    "of your place decide, and dates can be earlier than shown. Note damage before you sign; if "
    "money matters, ask the carrier, the supplier and a lawyer at once."
)
NO_CALENDAR = (
    "No holiday calendar is set for the place of delivery, so the day to send by is set one "
    "working day earlier. Set the country to have holidays left out."
)
COUNTING = (
    "This counts and records. It is no inspection and no proof of airworthiness: the plans, the "
    "supplier's instructions and local rules decide."
)
HARDWARE = (
    "Read from the number alone. It never overrules the marking on the bag and allows no "
    "substitution: ask the plans or the kit's designer. Untraceable hardware may be counterfeit "
    "(FAA AC 43.13-1B, 7-34)."
)
SUBSTITUTION = (
    "Numbers that replace each other on paper may differ in finish, material or head. Only the "
    "plans or the kit's designer allow a substitution; record who did, and where it is written."
)
MEASURED = (
    "A question, not an answer: a part found by measurement counts as found only after a second "
    "person has held it against the drawing."
)
NEAR_NUMBER = (
    "None of these is what was typed. Two different parts can be one character apart: take one "
    "only if it is the number on the part or its bag."
)
WEIGHED = (
    "Weighing can't tell mixed lengths or look-alikes apart: sort first. A number called exact "
    "still rests on the sample and the scale."
)
EXPIRED = (
    "Past its date. Don't use it unless the maker's instructions allow it to be tested and "
    "extended; record who decided. Follow the safety data sheet."
)
LABEL = "A label tells what someone put here. Keep the supplier's own tag and papers with the part."
SEAL = (
    "The seals show careless changes and decay. They prove nothing against the owner of the file, "
    "who could seal everything anew, unless a seal went to somebody else on the day: hand over "
    "the report it is printed on. They cover movements and the acts they belong to, not lists, "
    "counts' remarks or plans, and say nothing about what a person counted wrongly."
)
