"""Five more offices: sides as crosses, counts in words, an e-mail, prices, dotted lines."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from sample_kits.spreadsheets import Cell, Sheet
from tests.benchmarks.unseen_lists.offices_estuary import MAY, needed, told
from tests.benchmarks.unseen_lists.page import Document, Page, amounts
from tests.benchmarks.unseen_lists.supply import Group, Part, group
from tests.benchmarks.unseen_lists.tongues import CZECH, PORTUGUESE, SPANISH, SWEDISH

if TYPE_CHECKING:
    from random import Random

CYRILLIC = str.maketrans("ABCEHKMOPTX", "АВСЕНКМОРТХ")
"""Letters that look the same; a list copied from elsewhere has them."""


def bogbean(random: Random) -> Document:
    """Swedish, an old workbook: a cross under V or H says the side; rests, ticks, initials."""
    page = Page(Sheet("Packsedel"))
    page.put("head", "PACKSEDEL 1031", None, None, "Bogbean Lättmetall (påhittat)")
    page.put("head", "Best.nr", "K-77", None, "Packat av:", None, None, "AL")
    page.put("blank")
    names = ("Kolli", "Rad", "Artikelnr", "Benämning", "V", "H", "Enh.")
    head = (*names, "Beställt", "Levererat", "Rest", "Rest lev.", "Plockat", "Sign.")
    page.put("head", *head)
    line = 0
    for crate in (1, 2, 3):
        found = group(random, "zeros", crate, size=8)
        title = f"Delsats {crate} - {SWEDISH.place(found.name)}"
        row = page.put("heading", title)
        page.sheet.merges.append((row, 1, row, 13))
        for part in found.parts:
            line += 1
            bogbean_part(page, part, line, crate, random)
        page.put("blank")
        page.put("note", f"Sida {crate} (3)")
        if crate < 3:
            page.put("head", *head)
    number = "009901"
    page.part(("3 av 3", line + 1, number, "tätningsmassa", None, None, None, "efter behov",
               "efter behov"), [needed(number, 3)])  # fmt: skip
    page.put("total", None, None, None, "Summa rader", None, None, None, line + 1)
    page.put("note", "V = vänster, H = höger. Kryss i båda: hälften av varje.")
    return Document("bogbean", "xls", (page,))


def bogbean_part(page: Page, part: Part, line: int, crate: int, random: Random) -> None:
    one = replace(part, hand="none") if part.hand == "either" else part
    crosses = {"left": ("x", None), "right": (None, "x"), "pair": ("x", "x")}
    truth, numbers, unit = told(one, f"{crate} av 3"), [one.pieces, one.sent], "st"
    if one.hand == "pair" and not one.due and random.random() < 0.3:
        pairs = one.pieces // 2
        truth = replace(truth, amounts=(amounts(pairs, pairs),), unit="PR")
        numbers, unit = [pairs, pairs], "par"
    late = random.choice(("v. 24", "2026-06-30", "juni")) if one.due else None
    ticked = ("ok", random.choice(("AL", "BE"))) if one.sent else (None, None)
    named = (f"{crate} av 3", line, one.number, SWEDISH.say(one))
    sides = crosses.get(one.hand, (None, None))
    page.part((*named, *sides, unit, *numbers, one.due or None, late, *ticked), [truth])


def sundew(random: Random) -> Document:
    """Czech: the sub-kit in a column and only on its first row, counts in words, slashes."""
    page = Page(Sheet("List1"))
    page.put("head", "Balicí list č. 12/2026", None, "Sundew (smyšlená dílna)", bold=True)
    page.put("head", "Sady:", 1, "Beden:", 2)
    page.put("blank")
    page.put(
        "head", "Podsestava", "Bedna", "Číslo dílu", "Název", "Objednáno", "Poznámka", bold=True
    )
    lines = 1
    for crate in (1, 2):
        found = group(random, "dash", crate, size=13)
        lines += len(found.parts)
        for place, part in enumerate(found.parts):
            named = CZECH.place(found.name) if place == 0 else None
            sundew_part(page, part, (named, crate), random)
        page.put("blank")
    page.part((None, 2, "WX/9901/00", "tmel", "dle potřeby"), [needed("WX/9901/00", 2)])
    page.put("total", None, None, "Celkem řádků", None, lines)
    page.put("note", "L = levý, P = pravý, pár = 1 L + 1 P")
    page.put("note", "Vystavil:", None, None, "Kontroloval:")
    return Document("sundew", "xlsx", (page,))


def sundew_part(page: Page, part: Part, first: tuple[str | None, int], random: Random) -> None:
    one = part if part.hardware else replace(part, number=part.number.replace("-", "/"))
    ask, half = MAY.get(one.hand, "no"), one.pieces // 2
    truth, words = told(one, first[1]), f"{one.pieces} ks"
    if one.hand in {"left", "right"}:
        words = f"{one.pieces} ks {'L' if one.hand == 'left' else 'P'}"
    elif one.hand == "pair":
        words = f"{half} L + {half} P"
        if one.pieces == 2:
            words = random.choice(("1 pár", words))
            ask = "may" if "pár" in words else ask
        if not one.due and random.random() < 0.1:
            words = f"{half + 1} L + {half} P"
            given = amounts(one.pieces + 1, one.pieces + 1)
            truth = replace(truth, amounts=(given,), sides=(half + 1, half))
    elif one.hand == "either":
        words = f"{one.pieces} ks (L i P stejné)"
    remark = (
        f"{one.due} ks dodáme {random.choice(('14. 6. 2026', '1. 7. 2026'))}" if one.due else None
    )
    number = one.number
    if random.random() < 0.04 and number.translate(CYRILLIC) != number:
        number, ask = number.translate(CYRILLIC), "may"
        truth = replace(truth, numbers=(one.number, number))
    ask = "may" if one.due and ask == "no" else ask
    page.part((*first, number, CZECH.say(one), words, remark), [truth], ask)


def cottongrass(random: Random) -> Document:
    """Spanish: an e-mail; sides in words behind the name; what follows later stands apart."""
    page, bullets = Page(Sheet("correo")), random.random() < 0.5
    for line in ("De: envios@cottongrass.invalid", "Para: taller@puerto.invalid"):
        page.put("head|note", line)
    page.put("head|note", "Asunto: contenido de las cajas, pedido K-77")
    page.put("blank")
    page.put("head|note", "Hola:")
    page.put("head|note", "ya salieron las cajas. Os paso lo que va dentro; contadlo al abrir.")
    later: list[Part] = []
    for crate in (1, 2):
        found = group(random, "dots", crate, size=10)
        page.put("blank")
        page.put("heading", f"CAJA {crate} de 2: {SPANISH.place(found.name)}")
        if not bullets:
            page.put("head", f"  {'Cant.':<9}{'Código':<18}Descripción")
        later += [replace(part, pieces=part.due) for part in found.parts if part.due]
        cottongrass_lines(page, found, bullets=bullets, random=random)
    if later:
        page.put("blank")
        page.put("heading|note", "PENDIENTE (no va en estas cajas; sale el 14/06/2026):")
        for part in later:
            page.part((spanish_line(part, bullets=bullets),), [told(part)], "may")
    page.put("blank")
    page.put("note", "Los remaches van contados por peso.")
    page.put("note", "Un saludo,")
    page.put("note", "Expediciones")
    page.put("blank")
    page.put("note", "> ¿Cuándo llegan las cajas? Gracias.")
    return Document("cottongrass", "txt", (page,))


def cottongrass_lines(page: Page, found: Group, *, bullets: bool, random: Random) -> None:
    """Parts sent, a few with a second line of words; those owed stand elsewhere."""
    for part in found.parts:
        if part.due == part.pieces:
            continue
        one = replace(part, pieces=part.sent, due=0)
        line = spanish_line(one, bullets=bullets)
        page.part((line,), [told(one, found.crate)], MAY.get(one.hand, "no"))
        if not one.hardware and random.random() < 0.1:
            page.put("note", f"{' ' * 29}taladros a medida final, sin rebabas")


def spanish_line(part: Part, *, bullets: bool) -> str:
    half = part.pieces // 2
    sides = {"left": ", izquierda", "right": ", derecha"}
    sides["pair"] = f" ({half} izq. + {half} dcha.)"
    sides["either"] = ", vale a izquierda o a derecha"
    words = f"{SPANISH.say(part)}{sides.get(part.hand, '')}"
    if bullets:
        return f"- {part.pieces} x {part.number}, {words}"
    count = f"{part.pieces} {'ud.' if part.pieces == 1 else 'uds.'}"
    return f"  {count:<9}{part.number:<18}{words}"


def asphodel(random: Random) -> Document:
    """Portuguese: crate and bag first, prices with a decimal comma, thousands with a point."""
    page = Page(Sheet("lista"))
    page.put("head", "Guia de remessa", "2026/31", None, "Asphodel, oficina inventada")
    page.put("head", "Lado: E = esquerdo, D = direito, E+D = metade de cada")
    page.put("blank")
    names = ("Caixa", "Saco", "Ref.", "Designação", "Lado", "Enc.", "Env.", "Em falta")
    page.put("head", *names, "Previsão", "Preço unit. €", "Valor €", "Conf.")
    worth = 0
    for crate in (1, 2, 3):
        found = group(random, "letters", crate, size=8)
        page.put("heading", f"Subconjunto {crate}", None, None, PORTUGUESE.place(found.name))
        cents = sum(asphodel_part(page, part, crate, random) for part in found.parts)
        page.put("total", f"Subtotal {crate}", *[None] * 9, money(cents))
        worth += cents
    number = "FA9901G"
    page.part((3, None, number, "vedante", None, "conforme necessário", "conforme necessário"),
              [needed(number, 3)])  # fmt: skip
    page.put("total", "Total geral", *[None] * 9, money(worth))
    page.put("note", "Documento processado por computador")
    return Document("asphodel", "csv;;;iso-8859-15", (page,))


def asphodel_part(page: Page, part: Part, crate: int, random: Random) -> int:
    """Put the part down and return what it costs in cents."""
    sides = {"left": "E", "right": "D", "pair": "E+D", "either": "E ou D"}
    one, ask = part, MAY.get(part.hand, "no")
    if part.words.startswith("RIVET") and part.pieces >= 100:
        one, ask = replace(part, pieces=part.pieces * 10), "may"
    sent: Cell = thousands(one.sent)
    if one.pieces > 1 and not one.due and not one.hardware and random.random() < 0.06:
        sent, ask = None, "may"  # the value says that all were sent
    late = random.choice(("30/06/2026", "sem. 24")) if one.due else None
    price = random.randrange(4, 90) if one.hardware else random.randrange(150, 9000)
    named = (crate, one.bag or None, one.number, PORTUGUESE.say(one), sides.get(one.hand))
    owed = one.due or None
    prices = (money(price), money(price * one.sent))
    page.part(
        (*named, thousands(one.pieces), sent, owed, late, *prices, None), [told(one, crate)], ask
    )
    return price * one.sent


def thousands(pieces: int) -> str:
    return f"{pieces:,}".replace(",", ".")


def money(cents: int) -> str:
    return f"{thousands(cents // 100)},{cents % 100:02}"


def tormentil(random: Random) -> Document:
    """English text: a box to tick, the count first, dots between the name and its side."""
    page, rule, tick = Page(Sheet("text")), "-" * 72, random.choice("x ")
    page.put("head", f"{'TORMENTIL SHEET METAL (an invented office)':<56}PACKING LIST")
    page.put("head", f"{'Order K-77':<56}Page 1 of 3")
    page.put("head|note|blank", rule)
    page.put("head", "check  qty  part no.        what it is")
    for crate in (1, 2, 3):
        found = group(random, "dash", crate, size=7)
        page.put("heading", f"CRATE {crate} OF 3 - {found.name}")
        bag = ""
        for part in found.parts:
            if part.bag != bag:
                bag = part.bag
                page.put("heading", f"       bag {bag}:")
            count, ask, why = part.pieces, MAY.get(part.hand, "no"), ""
            if part.hand == "pair" and not part.due and random.random() < 0.1:
                count, ask, why = part.pieces + 1, "must", "the sides aren't the count"
            line = tormentil_line(part, tick, count)
            page.part((line,), [told(part, crate)], ask, why)
        pieces = sum(part.pieces for part in found.parts)
        page.put("total", f"{'':<5}{pieces:>5}  pieces on this page", ask="may")
        if crate < 3:
            page.put("head|note|blank", rule)
            page.put("head|note", f"{'Order K-77':<56}Page {crate + 1} of 3")
    page.put("head|note|blank", rule)
    page.put("note", "[ ] all crates screwed shut   [ ] photos taken   initials: ____")
    return Document("tormentil", "txt", (page,))


def tormentil_line(part: Part, tick: str, count: int) -> str:
    """What is owed is said at the end of the line, in words."""
    half = part.pieces // 2
    said = {
        "left": "LH",
        "right": "RH",
        "pair": f"{half} LH + {half} RH",
        "either": "fits LH or RH",
    }
    ends = [said[part.hand]] if part.hand in said else []
    if part.due:
        ends.append(f"{part.sent} here, {part.due} to follow")
    box = f"[{tick}]" if part.sent else "[ ]"
    start = f"{box}  {count:>5}  {part.number:<14}  {part.words} "
    return f"{start:.<56} {'; '.join(ends)}" if ends else start.rstrip()
