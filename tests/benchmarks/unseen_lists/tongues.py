"""What offices abroad call the parts of a kit, in nine languages."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from tests.benchmarks.unseen_lists.supply import HANDED, PLACES

if TYPE_CHECKING:
    from tests.benchmarks.unseen_lists.supply import Part

FASTENERS = ("BOLT", "NUT", "NUTPLATE", "WASHER", "COTTER PIN", "SCREW", "RIVET")


@dataclass(frozen=True, slots=True)
class Tongue:
    """The nouns of one language, fewer than a shop has."""

    handed: tuple[str, ...]
    plain: tuple[str, ...]
    fasteners: tuple[str, ...]
    """In the order of `FASTENERS`."""
    places: tuple[str, ...]

    def place(self, name: str) -> str:
        """Return what the office calls a part of the aircraft."""
        return self.places[PLACES.index(name) % len(self.places)]

    def say(self, part: Part) -> str:
        """Return what the office calls a part."""
        kind, _, place = part.words.partition(", ")
        if part.hardware:
            return self.fasteners[FASTENERS.index(kind)]
        nouns = self.handed if kind in HANDED else self.plain
        return f"{nouns[sum(map(ord, kind)) % len(nouns)]}, {self.place(place)}"


GERMAN = Tongue(
    ("Rippe", "Nasenrippe", "Beplankung", "Beschlag", "Knotenblech"),
    ("Holm", "Steg", "Verstärkung", "Platte", "Rohr", "Deckel"),
    ("Schraube", "Mutter", "Annietmutter", "Scheibe", "Splint", "Senkschraube", "Niet"),
    ("Tragfläche außen", "Höhenflosse", "Seitenflosse", "Querruder", "Rumpf vorn", "Schwimmer"),
)
DUTCH = Tongue(
    ("rib", "neusrib", "huidplaat", "beugel", "hoekplaat"),
    ("ligger", "lijfplaat", "verdubbeling", "plaat", "buis", "deksel"),
    ("bout", "moer", "klinkmoer", "ring", "splitpen", "schroef", "klinknagel"),
    ("buitenvleugel", "stabilo", "kielvlak", "rolroer", "romp voor", "drijver"),
)
FRENCH = Tongue(
    ("nervure", "bec de nervure", "revêtement", "ferrure", "gousset"),
    ("longeron", "âme", "doublure", "plaque", "tube", "couvercle"),
    ("vis", "écrou", "écrou à river", "rondelle", "goupille", "vis fraisée", "rivet"),
    ("voilure externe", "empennage", "dérive", "aileron", "fuselage avant", "flotteur"),
)
ITALIAN = Tongue(
    ("centina", "centina di bordo", "rivestimento", "squadretta", "fazzoletto"),
    ("longherone", "anima", "rinforzo", "piastra", "tubo", "coperchio"),
    ("bullone", "dado", "dado a piastrina", "rondella", "copiglia", "vite", "rivetto"),
    ("ala esterna", "stabilizzatore", "deriva", "alettone", "fusoliera ant.", "galleggiante"),
)
POLISH = Tongue(
    ("żebro", "żebro noskowe", "poszycie", "okucie", "węzłówka"),
    ("dźwigar", "ścianka", "nakładka", "płytka", "rurka", "pokrywa"),
    ("śruba", "nakrętka", "nakrętka nitowana", "podkładka", "zawleczka", "wkręt", "nit"),
    ("skrzydło zewn.", "statecznik", "ster kierunku", "lotka", "kadłub przód", "pływak"),
)
SWEDISH = Tongue(
    ("spryglar", "nosspryglar", "plåt", "beslag", "knutplåt"),
    ("balk", "liv", "förstärkning", "platta", "rör", "lock"),
    ("bult", "mutter", "nitmutter", "bricka", "saxpinne", "skruv", "nit"),
    ("yttervinge", "stabilisator", "fena", "skevroder", "framkropp", "flottör"),
)
CZECH = Tongue(
    ("žebro", "náběžné žebro", "potah", "kování", "styčník"),
    ("nosník", "stojina", "výztuha", "deska", "trubka", "víko"),
    ("šroub", "matice", "nýtovací matice", "podložka", "závlačka", "vrut", "nýt"),
    ("vnější křídlo", "stabilizátor", "kýlovka", "křidélko", "přední trup", "plovák"),
)
SPANISH = Tongue(
    ("costilla", "costilla de borde", "revestimiento", "herraje", "cartela"),
    ("larguero", "alma", "refuerzo", "placa", "tubo", "tapa"),
    ("perno", "tuerca", "tuerca remachada", "arandela", "pasador", "tornillo", "remache"),
    ("ala exterior", "estabilizador", "deriva", "alerón", "fuselaje delantero", "flotador"),
)
PORTUGUESE = Tongue(
    ("nervura", "nervura de bordo", "revestimento", "ferragem", "esquadro"),
    ("longarina", "alma", "reforço", "chapa", "tubo", "tampa"),
    ("parafuso", "porca", "porca de rebitar", "anilha", "troço", "parafuso escariado", "rebite"),
    ("asa exterior", "estabilizador", "deriva", "aileron", "fuselagem dianteira", "flutuador"),
)
