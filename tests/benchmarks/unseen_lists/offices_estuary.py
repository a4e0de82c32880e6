"""Five offices abroad: sets times pieces, columns the other way round, a sheet a sub-kit."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Any

from sample_kits.spreadsheets import Cell, Sheet
from tests.benchmarks.unseen_lists.page import Ask, Document, Meant, Page, amounts, meant
from tests.benchmarks.unseen_lists.supply import Group, Part, group, part_number
from tests.benchmarks.unseen_lists.tongues import DUTCH, FRENCH, GERMAN, ITALIAN, POLISH

if TYPE_CHECKING:
    from collections.abc import Mapping
    from random import Random

MAY: Mapping[str, Ask] = {"either": "may"}
"""A part that fits either side is rare enough that a reader may ask."""


def told(part: Part, crate: int | str = "", **changes: Any) -> Meant:  # noqa: ANN401
    """Return the truth of a part in a crate."""
    return replace(meant(part), crate=str(crate), **changes)


def needed(number: str, crate: int = 1) -> Meant:
    """Return the truth of what is used as required, and never counted."""
    return Meant(
        numbers=(number,), hand="none", amounts=(amounts("AR", "AR", "AR"),), crate=f"{crate}"
    )


def sandwort(random: Random) -> Document:
    """German: pieces for one set, sets, and pieces in all; head in two rows, formulas as sums."""
    sets, page = random.choice((1, 2, 3)), Page(Sheet("Packliste"))
    row = page.put("head", "Packliste 2207, Kontor Sandwort (erfunden)", bold=True)
    page.sheet.merges.append((row, 1, row, 10))
    page.put("head", "Kunde", "Werkstattkurs am Hafen", None, "Sätze", sets)
    page.put("blank")
    sandwort_columns(page)
    position, totals = 0, []
    for crate in (1, 2):
        found = group(random, "dash", crate, size=10)
        row = page.put("heading", f"Baugruppe {crate}: {GERMAN.place(found.name)}", bold=True)
        page.sheet.merges.append((row, 1, row, 10))
        for part in found.parts:
            position += 1
            sandwort_part(page, part, (position, crate), sets, random)
        last = len(page.sheet.rows)
        sums = (f"=SUM(F{row + 1}:F{last})", None, f"=SUM(H{row + 1}:H{last})")
        totals.append(page.put("total", None, None, "Zwischensumme", None, None, *sums, bold=True))
        if crate == 1:
            page.put("note", None, None, None, None, None, None, None, "Seite 1 von 2")
            sandwort_columns(page)
    page.part((position + 1, "WX-9990-01", "Dichtmasse", None, None, "nach Bedarf", 2),
              [needed("WX-9990-01", 2)])  # fmt: skip
    page.put("total", None, None, "Summe", None, None, f"=F{totals[0]}+F{totals[1]}", bold=True)
    page.put("blank")
    page.put("note", "Gewichte gerundet. Kisten verschraubt, nicht genagelt.")
    page.put("note", "Gepackt:", None, "geprüft:", None, None, "Seite 2 von 2")
    return Document("sandwort", "xlsx", (page,))


def sandwort_columns(page: Page) -> None:
    names = ("Pos.", "Teile-Nr.", "Benennung", "Stück", None, None, "Kiste", "Gewicht kg")
    top = page.put("head", *names, "geprüft", None, bold=True)
    second = (None, None, None, "je Satz", "Sätze", "gesamt", None, None, "WE", "Mont.")
    page.put("head", *second, bold=True)
    page.sheet.merges += [(top, 4, top, 6), (top, 9, top, 10)]
    page.sheet.merges += [(top, column, top + 1, column) for column in (1, 2, 3, 7, 8)]


def sandwort_part(
    page: Page, part: Part, place: tuple[int, int], sets: int, random: Random
) -> None:
    sides = {"left": ", links", "right": ", rechts", "pair": ", links und rechts"}
    sides["either"] = ", links oder rechts verwendbar"
    position, crate = place
    one = replace(part, pieces=part.pieces * sets, due=0)
    words = f"{GERMAN.say(part)}{sides.get(part.hand, '')}"
    ask, why, total = MAY.get(part.hand, "no"), "", one.pieces
    if sets > 1 and not part.hardware and random.random() < 0.05:
        total, ask, why = one.pieces - 1, "must", "a set times the sets isn't the total"
    weight = round(one.pieces * random.uniform(0.004, 0.3), 3)
    cells = (position, part.number, words, part.pieces, sets, total, crate, weight, "☐", "☐")
    page.part(cells, [told(one, crate)], ask, why)


def bladderwrack(random: Random) -> Document:
    """Dutch: empty lines of semicolons first, the part number near the end, initials, metres."""
    page = Page(Sheet("paklijst"))
    page.put("blank")
    page.put("head", None, "Paklijst", None, "0815", None, "Bladderwrack (verzonnen)")
    page.put("head", None, "Datum", None, "12-05-2026", None, "ingepakt door: nachtploeg")
    page.put("blank")
    names = ("Krat", "Besteld", "Geleverd", "Na te leveren", "Eenh.", "Omschrijving")
    head = (*names, "Zijde", "Artikelnr.", "Zak", "Paraaf")
    page.put("head", *head)
    for crate in (1, 2, 3):
        found = group(random, "dots", crate, size=7)
        title = f"Deelpakket {crate} - {DUTCH.place(found.name)}"
        page.put("heading", None, None, None, None, None, title)
        for part in found.parts:
            bladderwrack_part(page, part, crate, random)
        metres, number = (
            random.choice(("5,49", "3,66", "12,5", "7,32")),
            part_number(random, "dots"),
        )
        length = amounts(metres.replace(",", "."), metres.replace(",", "."))
        bar = Meant(numbers=(number,), hand="none", amounts=(length,), unit="MTR")
        words = random.choice(("hoekprofiel 20 x 20 x 1,5", "buis 12 x 1", "strip 25 x 3"))
        page.part((crate, metres, metres, None, "m", words, None, number, None, "jv"), [bar])
        sums = [sum(getattr(p, name) for p in found.parts) for name in ("pieces", "sent", "due")]
        page.put("total", f"Totaal krat {crate}", *sums, "st", ask="may")
        if crate < 3:
            page.put("note", None, None, None, None, None, f"Blad {crate} van 3")
            page.put("head", *head)
    page.put(
        "note", None, None, None, None, None, "Zakken zijn dichtgeniet; niets los in het krat."
    )
    return Document("bladderwrack", "csv;;;cp1252", (page,))


def bladderwrack_part(page: Page, part: Part, crate: int, random: Random) -> None:
    sides = {"left": "links", "right": "rechts", "pair": "l + r", "either": "links of rechts"}
    due: Cell = f"{part.due} (wk {random.randrange(20, 40)})" if part.due else None
    ask, why = MAY.get(part.hand, "no"), ""
    truth, unit = told(part, crate), "st"
    numbers: tuple[Cell, ...] = (part.pieces, part.sent, due)
    if part.hand == "pair" and not part.due and random.random() < 0.5:
        pairs = part.pieces // 2
        numbers, unit = (pairs, pairs, None), "paar"
        truth = replace(truth, amounts=(amounts(pairs, pairs),), unit="PR")
    elif part.hand == "none" and not part.hardware and random.random() < 0.12:
        numbers, ask, why = ("zie opm.", None, None), "must", "no quantity is said"
    words = (DUTCH.say(part), sides.get(part.hand), part.number, part.bag or None)
    page.part((crate, *numbers, unit, *words, random.choice(("jv", "jv", None))), [truth], ask, why)


def samphire(random: Random) -> Document:
    """French: a summary first, then a sheet for each sub-kit with rest and promised date."""
    groups = [group(random, "dash", crate, size=8) for crate in (1, 2, 3)]
    summary = Page(Sheet("Récapitulatif"))
    summary.put("head", "Bordereau de colisage n° 118")
    summary.put("head", "Client", "atelier du port", None, "Établissements Samphire (fictifs)")
    summary.put("blank")
    summary.put("head", "Feuille", "Sous-ensemble", "Caisse", "Lignes", "Pièces")
    lines = pieces = 0
    for found in groups:
        count = sum(part.sent for part in found.parts)
        cells = (f"SE{found.crate}", FRENCH.place(found.name), found.crate, len(found.parts), count)
        summary.put("heading|total|note", *cells, ask="may")
        lines, pieces = lines + len(found.parts), pieces + count
    summary.put("total", "Total", None, None, lines, pieces)
    return Document("samphire", "ods", (summary, *(samphire_sheet(random, g) for g in groups)))


def samphire_sheet(random: Random, found: Group) -> Page:
    page = Page(Sheet(f"SE{found.crate}"))
    page.put("head|heading", f"Sous-ensemble SE{found.crate} : {FRENCH.place(found.name)}")
    page.put("head|heading", f"Caisse {found.crate} sur 3")
    page.put("blank")
    names = ("Rep.", "Référence", "Désignation", "Côté", "Ind.", "Qté cdée", "Qté livrée")
    page.put("head", *names, "Reliquat", "Livraison prévue", "Contrôle")
    sides = {"left": "gauche", "right": "droite", "pair": "G + D", "either": "G ou D"}
    bag = ""
    for place, part in enumerate(found.parts, 1):
        if part.bag != bag:
            bag = part.bag
            counted = random.choice((1, None))
            page.put("heading", None, f"Sachet {bag}", "visserie", None, None, counted, counted)
        one = part
        if not part.hardware:
            one = replace(part, number=part.number.replace("-", " ", 1).replace("-", "."))
        due: list[Cell] = [one.due or None, None]
        if one.due:
            due[1] = random.choice(("15/06/2026", "semaine 24", "30/06/2026", "juin 2026"))
        ask, why, sent = MAY.get(one.hand, "no"), "", one.sent
        if one.pieces > 2 and not one.hardware and random.random() < 0.04:
            due, sent, ask, why = [2, "juin 2026"], one.pieces - 1, "must", "the amounts disagree"
        cells = (place, one.number, FRENCH.say(one), sides.get(one.hand), one.revision or None)
        truth = told(one, found.crate, revision=one.revision)
        page.part((*cells, one.pieces, sent, *due, None), [truth], ask, why)
    number = f"WX 99{found.crate}0.01"
    cells = (len(found.parts) + 1, number, "mastic d'étanchéité", None, None)
    page.part((*cells, "selon besoin", "selon besoin"), [needed(number, found.crate)])
    sums = [sum(getattr(part, name) for part in found.parts) for name in ("pieces", "sent", "due")]
    page.put("total", None, f"Sous-total SE{found.crate}", None, None, None, *sums, ask="may")
    page.put("note", f"Page {found.crate}/3")
    return page


def razorshell(random: Random) -> Document:
    """Italian: crate merged down, pieces by side and in all, weights, prices, a tick column."""
    page = Page(Sheet("Distinta"))
    row = page.put("head", "DISTINTA DI IMBALLO 31/26, Razorshell (inventata)", bold=True)
    page.sheet.merges.append((row, 1, row, 12))
    page.put("head", "Commessa", None, "idrovolante, officina del porto")
    names = ("Cassa", "Busta", "Codice", "Descrizione", "Quantità", None, None, None)
    top = page.put("head", *names, "Peso g", "Prezzo €", "Importo €", "Visto", bold=True)
    page.put("head", None, None, None, None, "SX", "DX", "Senza lato", "Totale", bold=True)
    page.sheet.merges.append((top, 5, top, 8))
    for crate in (1, 2):
        found = group(random, "letters", crate, size=11)
        first = len(page.sheet.rows) + 1
        for place, part in enumerate(found.parts):
            razorshell_part(page, part, crate, place == 0, random)
        last = len(page.sheet.rows)
        page.sheet.merges.append((first, 1, last, 1))
        sums = [f"=SUM({column}{first}:{column}{last})" for column in "EFGH"]
        page.put("total", None, None, None, f"Totale cassa {crate}", *sums, bold=True)
    page.part((2, None, "FA9901G", "sigillante", None, None, None, "q.b."), [needed("FA9901G", 2)],
              "may")  # fmt: skip
    page.put(
        "note", None, None, None, "Prezzi senza IVA. Verificare il contenuto prima della firma."
    )
    return Document("razorshell", "xlsx", (page,))


def razorshell_part(page: Page, part: Part, crate: int, first: bool, random: Random) -> None:  # noqa: FBT001
    """A part that fits either side has no side in this list; a pair may be uneven."""
    half, hand = part.pieces // 2, "none" if part.hand == "either" else part.hand
    columns: dict[str, tuple[int, int]] = {"left": (part.pieces, 0), "right": (0, part.pieces)}
    left, right = columns.get(hand, (half, half) if hand == "pair" else (0, 0))
    if hand == "pair" and random.random() < 0.2:
        left += 1
    total = left + right or part.pieces
    one = replace(part, hand=hand, pieces=total, due=0)
    price = round(random.uniform(0.05, 60), 2)
    amount = (left or None, right or None, None if left + right else total, total)
    money = (random.randrange(2, 900), price, round(price * total, 2))
    named = (crate if first else None, part.bag or None, part.number, ITALIAN.say(part))
    cells = (*named, *amount, *money, random.choice(("✓", None)))
    page.part(cells, [told(one, crate, sides=(left, right) if hand == "pair" else None)])


def glasswort(random: Random) -> Document:
    """Polish: a legend of sides in letters, runs of metres, sets, rests with a date."""
    page = Page(Sheet("wysyłka"))
    page.put("head", "Specyfikacja wysyłkowa 44/2026", None, None, "Glasswort (firma zmyślona)")
    page.put("head", "Str.: L = lewa, P = prawa, L+P = po połowie, U = pasuje po obu stronach")
    page.put("blank")
    names = ("Lp.", "Nr części", "Nazwa", "Str.", "Zamówiono", "Wysłano", "Do dosłania", "J.m.")
    head = (*names, "Skrzynia", "Worek")
    page.put("head", *head)
    place = 0
    for crate in (1, 2, 3):
        found = group(random, "WR/26-", crate, size=7)
        page.put("heading", None, None, f"Zespół {crate}: {POLISH.place(found.name)}")
        for part in found.parts:
            place += 1
            glasswort_part(page, part, place, crate, random)
        place += 1
        number, metres = f"WR/27-{crate}00", random.choice(("3,66", "2,44", "6"))
        length = amounts(metres.replace(",", "."), metres.replace(",", "."))
        bar = Meant(numbers=(number,), hand="none", amounts=(length,), unit="MTR")
        row = (place, number, "kątownik 20x20x1,5", None, metres, metres, None, "mb", crate)
        page.part(row, [bar], "may")
        sums = [sum(getattr(p, name) for p in found.parts) for name in ("pieces", "sent")]
        page.put("total", None, None, f"Razem zespół {crate}", None, *sums, None, "szt.", ask="may")
        page.put("note", f"Strona {crate} z 3")
        if crate < 3:
            page.put("head", *head)
    return Document("glasswort", "tsv;\t;utf-16", (page,))


def glasswort_part(page: Page, part: Part, place: int, crate: int, random: Random) -> None:
    sides = {"left": "L", "right": "P", "pair": "L+P", "either": "U"}
    ask, why, unit = MAY.get(part.hand, "no"), "", "szt."
    one = part
    if part.words == "RIVET":
        one = replace(part, pieces=part.pieces * random.choice((1, 20)))
    elif part.hand == "pair" and not part.due and random.random() < 0.2:
        one, ask, why = replace(part, pieces=3), "must", "three can't be half left, half right"
    written: list[Cell] = [
        f"{pieces:,}".replace(",", "\u00a0") for pieces in (one.pieces, one.sent)
    ]
    due = f"{one.due} (do {random.choice(('30.06', '15.07'))}.2026)" if one.due else None
    cells = (place, one.number, POLISH.say(one), sides.get(one.hand), *written, due, unit, crate)
    page.part((*cells, one.bag or None), [told(one, crate)], ask, why)
