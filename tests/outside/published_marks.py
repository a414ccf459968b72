"""Which part must carry which lead colour or terminal letter for which published row, and what that part must say of
itself. Read by published_rows.py; the rows stand in tests/reference/wire_colours.csv and terminals.csv."""

STATORS = ["stator-1ph-open", "stator-1ph-potted", "stator-1ph-high-output", "stator-3ph-potted"]
POINTS = ["condenser-can", "condenser-pair", "points-plate", "pickup-plate", "ignition-box", "coil-et", "stator-et"]
WARNING = ["charge-control-electronic", "charge-module", "charge-module-daylight"]
LAMP_SWITCHES = ["switch-lighting", "switch-lighting-alternator"]

# Row, lead colour, what the row must say, parts that claim a lead of this colour for that reason, what each part must
# say of itself.
LEADS = [
    # British motorcycles: charging, points, feeds, lamps.
    ("WC-047", "green/yellow", "stator", STATORS + ["switch-lighting-alternator"], "stator"),
    ("WC-047", "green/yellow", "warning-lamp simulator", WARNING, "charge.warning"),
    ("WC-044", "green/black", "stator", STATORS + ["switch-lighting-alternator"], "stator"),
    ("WC-041", "black/white", "contact breaker", POINTS + ["coil-12v", "coil-ballasted"], "points"),
    ("WC-042", "black/yellow", "contact breaker", POINTS, "points"),
    ("WC-052", "brown/blue", "battery", ["fuse-holder-inline", "switch-ignition-key"], "battery"),
    ("WC-023", "brown/blue", "lighting switch, feed", LAMP_SWITCHES, "feed"),
    ("WC-053", "brown/white", "ammeter to ignition switch", ["switch-ignition-key", "switch-lighting-alternator"],
     "ignition switch"),
    ("WC-051", "brown/green", "tail lamp", LAMP_SWITCHES, "tail|lamps"),
    ("WC-051", "brown/green", "instrument illumination", ["not-electrical-gauge"], "lamp for the dial"),
    ("WC-056", "red/black", "lighting switch to pilot lamp", LAMP_SWITCHES, "PILOT|pilot"),
    ("WC-031", "blue", "lighting switch .head. to dipper", LAMP_SWITCHES + ["switch-dip"], "head ?lamp|headlamp"),
    ("WC-032", "blue/red", "dip beam", ["switch-dip"], "dip filament"),
    ("WC-034", "blue/white", "main beam", ["switch-dip"], "main"),
    ("WC-081", "white/brown", "oil-pressure switch", ["switch-oil-pressure"], "oil-pressure switch"),
    ("WC-080", "white/red", "starter", ["relay-starter"], "starter"),
    ("WC-029", "brown/yellow", "dynamo D .* ignition warning lamp", ["warning-lamp"], "joins the ignition feed to D"),
    ("WC-030", "brown/black", "alternator warning lamp", ["warning-lamp", "charge-module", "charge-module-daylight"],
     "(charge|ignition)[- ]([a-z ]*)?warning"),
    ("WC-086", "pink/white", "ballast", ["ballast-ceramic"], "ballast"),
    ("WC-003", "white", "ignition circuits", ["ballast-ceramic", "coil-6v", "coil-ballasted", "warning-lamp",
                                              "switch-ignition-key"], "ignition"),
    # The earth lead of a sink is red or black by the polarity of the machine; plain brown has two meanings.
    ("WC-055", "red", "earth on positive-earth", ["zener-on-sink", "heat-sink"], "positive earth: 0 to"),
    ("WC-039", "black", "earth on negative-earth", ["zener-on-sink", "heat-sink"], "negative-earth"),
    ("WC-049", "brown", "stop lamp", ["switch-stop-pull", "switch-stop-front"], "stop.lamp"),
    ("WC-006", "brown", "main battery feed", ["fuse-holder-inline"], "main fuse in the live lead of the battery"),
    ("WC-058", "brown", "battery feed .* stop lamp", ["fuse-holder-inline", "switch-stop-pull"], "battery|stop-lamp"),
    # German practice, by terminal number.
    ("WC-111", "red", "30 .battery feed", ["switch-ignition-key", "fuse-holder-inline"], "battery"),
    ("WC-112", "black", "15 .ignition feed", ["switch-ignition-key"], "ignition out"),
    ("WC-113", "grey", "58 .side/tail", ["switch-lighting"], "tail"),
    ("WC-114", "white", "56a .main beam", ["switch-dip"], "main"),
    ("WC-115", "yellow", "56b .dip beam", ["switch-dip"], "dip filament"),
    ("WC-116", "blue", "61 .charge lamp", ["warning-lamp", "dynamo-crank"], "charge lamp"),
    ("WC-119", "black/red", "54 .stop", ["switch-stop-pull", "switch-stop-front"], "stop.lamp"),
    # Japanese practice.
    ("WC-121", "red", "battery supply", ["regrec-factory-3ph", "rectifier-3ph-plate"], "to the live battery side"),
    ("WC-122", "green", "earth", ["regrec-factory-3ph"], "earth lead"),
    ("WC-122", "black/white", "earth", ["regrec-factory-3ph"], "earth lead"),
    ("WC-123", "light-green", "neutral lamp", ["switch-neutral"], "neutral lamp"),
    ("WC-123", "light-green/red", "neutral lamp", ["switch-neutral", "stator-switched-small"], "neutral"),
    ("WC-124", "yellow", "stator phases", ["stator-3ph-outer", "stator-field-3ph", "regrec-3ph", "rectifier-3ph-plate"],
     "three[- ]phase"),
    ("WC-124", "white", "stator phases", ["stator-3ph-outer", "stator-field-3ph", "regrec-3ph"], "three[- ]phase"),
]
# Two-colour leads that the catalogue claims and no row gives this meaning to: Japanese and American practice, makers of
# retrofit units, and the third British stator lead.
UNPUBLISHED_LEADS = {
    "white/green": STATORS + ["switch-lighting-alternator", "regrec-1ph", "stator-3ph-outer"],
    "green/yellow": ["regrec-1ph", "switch-stop-pull", "switch-stop-front", "foreign-electrical"],
    "white/brown": ["charge-control-electronic"],  # the rows know it as the oil-pressure lead only
    "brown/blue": ["stator-et", "zener-pack"], "brown/white": ["flasher-capacitor"],
    "black/white": ["regulator-field-vibrating", "coil-twin-lead"], "black/brown": ["flasher-capacitor"],
    "white/black": ["switch-dip", "switch-lighting"], "white/blue": ["stator-3ph-outer"],
    "white/red": ["stator-3ph-outer"], "orange/white": ["coil-twin-lead"], "blue/red": ["switch-oil-pressure"],
    "blue/white": ["relay-starter"], "green/red": ["relay-starter"], "yellow/red": ["relay-starter"],
    "red/white": ["coil-12v", "coil-twin-lead", "fuse-holder-inline", "rectifier-3ph-plate", "regrec-factory-3ph",
                  "relay-starter", "stator-switched-small"],
}

FLASHERS = ["flasher-thermal-2", "flasher-thermal-3", "flasher-capacitor", "flasher-car", "flasher-electronic"]
BATTERY_COILS = ["coil-12v", "coil-6v", "coil-ballasted", "coil-twin-lead"]
FIELD = ["regulator-field-solid", "regulator-field-vibrating"]
CONTROLS = ["charge-control-can"] + WARNING

# What a letter stands for on which parts. Parts; name; letter -> row; how many of these letters a lettered part
# carries; what each row must say; parts that must say so, and what. A letter or sign that may stand in has no row.
ROLES = [
    # Flashers: German and British letters, and the older German ones that the rows translate.
    (FLASHERS, "feed", {"B": "TM-124", "X": "TM-127", "49": "TM-023", "15": "TM-081", "+": None}, (1, 1),
     r"battery feed|supply|unit input|49 \(flasher\)", FLASHERS, r"feed[^.;|\n]* (B|X|49)\b"),
    (FLASHERS, "lamps", {"L": "TM-125", "49a": "TM-024", "S4": "TM-104", "54L": "TM-091"}, (1, 1),
     "indicator switch|-> 49a", FLASHERS, r"\bL \(49a\)( to the (indicator )?switch)?"),
    (FLASHERS, "tell-tale", {"P": "TM-126", "C": "TM-063", "K": "TM-099"}, (0, 1), "pilot|tell-tale|-> C",
     ["flasher-thermal-3", "flasher-car"], r"P \(C\) to the tell-tale"),
    (FLASHERS, "earth", {"31": "TM-016", "E": "TM-120"}, (0, 1), "earth", ["flasher-electronic"], "earth pin .E, 31"),
    # Coils: a lettered one carries both ends of its primary. An energy-transfer coil has no feed.
    (BATTERY_COILS, "supply side", {"SW": "TM-122", "15": "TM-009"}, (1, 1), r"supply|through the ignition switch",
     ["coil-12v", "coil-6v"], "SW to the switch"),
    (BATTERY_COILS, "points side", {"CB": "TM-121", "1": "TM-001"}, (1, 1), "contact-breaker side|coil .*low voltage",
     ["coil-12v", "coil-6v"], "CB to the points"),
    (BATTERY_COILS, "spark", {"4": "TM-005"}, (0, 1), "high voltage", BATTERY_COILS, "spark"),
    (["coil-et"], "points side", {"CB": "TM-121", "1": "TM-001"}, (1, 1), "contact-breaker side|coil .*low voltage", [],
     ""),
    (["coil-et"], "other side", {"SW": "TM-122"}, (0, 1), "supply", [], ""),
    # Dynamos. A on an American generator is its armature, the reverse of A on a British control box: no row covers it.
    (["dynamo-two-brush"], "armature", {"D": "TM-116", "D+": "TM-066"}, (1, 1), "dynamo (armature|or)",
     ["dynamo-two-brush"], "D to body, turning the shaft.*armature"),
    (["dynamo-two-brush"], "field", {"F": "TM-117", "DF": "TM-068"}, (1, 1), "dynamo field", ["dynamo-two-brush"],
     "F to body, both wires off .*field"),
    (["dynamo-third-brush"], "armature or field", {"D": "TM-116", "F": "TM-117"}, (0, 2), "dynamo", [], ""),
    (["dynamo-crank"], "armature", {"D": "TM-116", "D+": "TM-066", "61": "TM-096"}, (1, 2), r"dynamo (armature|or)|D\+",
     ["dynamo-crank"], r"61 or D\+ to the charge lamp"),
    (["dynamo-crank"], "field", {"DF": "TM-068"}, (0, 1), "dynamo field", ["dynamo-crank"],
     "DF to body.*the field ends"),
    (["dynamo-crank"], "battery", {"51": "TM-089"}, (0, 1), r"B\+", ["dynamo-crank"], r"battery terminal \(B\+ or 51"),
    (["dynamo-crank"], "ignition", {"1": "TM-001", "15": "TM-009"}, (0, 2), "coil|ignition switch", [], ""),
    (["starter-dynamo"], "windings", {"D": "TM-116", "D+": "TM-066", "F": "TM-117", "DF": "TM-068"}, (2, 2),
     "dynamo", ["starter-dynamo"], r"shunt-field lead \(DF or F\)"),
    (["starter-dynamo"], "its box", {"A": "TM-118", "50": "TM-027"}, (0, 1), "control", [], ""),
    (["dynamo-american"], "field", {"F": "TM-117"}, (1, 1), "dynamo field", ["dynamo-american"], "F to field terminal"),
    # Cut-outs and regulators join the dynamo (D) to the battery (A) or switch its field (F).
    (["cut-out"], "dynamo", {"D": "TM-116", "61": "TM-096", "GEN": None}, (1, 1), r"dynamo armature|D\+", ["cut-out"],
     "D to dynamo"),
    (["cut-out"], "battery", {"A": "TM-118", "51": "TM-089", "B": None, "BAT": None}, (1, 1), r"battery feed|B\+",
     ["cut-out"], "A to ammeter or battery"),
    (["cut-out", "regulator-cvc"], "earth", {"E": "TM-120"}, (0, 1), "earth", ["cut-out", "regulator-cvc"],
     r"E (or body )?to bare frame"),
    (["regulator-cvc"], "dynamo armature", {"D": "TM-116"}, (1, 1), "dynamo armature", ["regulator-cvc"],
     "D to dynamo D"),
    (["regulator-cvc"], "dynamo field", {"F": "TM-117"}, (1, 1), "dynamo field", ["regulator-cvc"], "F to dynamo F"),
    (["regulator-cvc"], "battery", {"A": "TM-118"}, (1, 1), "ammeter or battery", ["regulator-cvc"],
     "A through the fuse to ammeter or battery"),
    (FIELD, "field", {"F": "TM-117", "DF": "TM-068"}, (1, 1), "dynamo field", FIELD, "field lead to the field"),
    (FIELD, "feed", {"IG": "TM-132", "D+": "TM-066"}, (1, 1), r"ignition|alternator, \+", FIELD, "ignition feed"),
    (FIELD, "earth", {"E": "TM-120", "D-": "TM-067"}, (1, 1), "earth|alternator, -", FIELD, "earth lead to bare frame"),
    (["regulator-three-unit"], "field", {"F": "TM-117", "FLD": None}, (1, 1), "dynamo field", ["regulator-three-unit"],
     "field to F"),
    # Charge-warning controls, relays, flywheels, alternators.
    (CONTROLS, "warning lamp", {"WL": "TM-133"}, (1, 1), "warning lamp", CONTROLS,
     "lamp to the lamp lead|lamp lead to the lamp"),
    (CONTROLS, "earth", {"E": "TM-120"}, (1, 1), "earth", ["charge-control-can"], "third lead to earth"),
    (["relay-cube"], "coil", {"85": "TM-106", "86": "TM-107", "W1": None, "W2": None}, (2, 2), "coil", ["relay-cube"],
     "coil, 85 to 86"),
    (["relay-cube"], "contact", {"30": "TM-108", "87": "TM-109", "C1": None, "C2": None}, (2, 2),
     "common contact|normally-open", ["relay-cube"], "contact: 30 to 87, .*OL at rest, 0 with the coil on"),
    (["relay-cube"], "rest contact", {"87a": "TM-110"}, (0, 1), "normally-closed", ["relay-cube"],
     "30 to 87a the other way about"),
    (["relay-cube"], "positive side of the coil", {"86": "TM-054"}, (0, 1), r"coil, \+", ["relay-cube"],
     "86 on the positive side"),
    (["relay-starter"], "coil", {"50": "TM-027", "85": "TM-106", "86": "TM-107"}, (0, 2),
     "starter control|coil", [], ""),
    (["relay-starter"], "battery", {"30": "TM-014", "B": None, "+": None}, (1, 1), "battery", ["relay-starter"],
     "battery cable to one stud"),
    (["flywheel-stator-plate"], "AC", {"59": "TM-043"}, (1, 1), "a.c. out", ["flywheel-stator-plate"], "AC"),
    (["flywheel-stator-plate"], "ignition or DC", {"1": "TM-001", "2": "TM-004", "51": "TM-028"}, (1, 2),
     "coil|magneto ignition|d.c. at the rectifier", ["flywheel-stator-plate"], "ignition"),
    (["stator-field-3ph"], "phases", {"U": "TM-073", "V": "TM-074", "W": "TM-075"}, (3, 3), "three-phase terminal",
     ["stator-field-3ph"], "three pairs the same"),
    # Switches, fuses, horn, and car ware.
    (["switch-dip"], "feed", {"56": "TM-033"}, (1, 1), "headlamp feed", ["switch-dip"], "head lamp feed to the common"),
    (["switch-dip"], "beams", {"56a": "TM-034", "56b": "TM-035"}, (2, 2), "main beam|dip beam", ["switch-dip"],
     "main and dip filaments to the other two"),
    (["switch-ignition-key"], "battery", {"30": "TM-014"}, (1, 1), "direct from battery", ["switch-ignition-key"],
     "battery feed in"),
    (["switch-ignition-key"], "ignition", {"15": "TM-009"}, (1, 1), "through the ignition switch",
     ["switch-ignition-key"], "ignition out"),
    (["switch-ignition-key"], "lamps", {"57": "TM-037", "58": "TM-041"}, (0, 2), "parking|plate",
     ["switch-ignition-key"], "some add parking lamps and lights"),
    (["switch-lighting"], "feed", {"30": "TM-014", "A": "TM-118"}, (1, 1), "battery", ["switch-lighting"],
     "battery feed in"),
    (["switch-lighting"], "pilot and tail", {"57": "TM-037", "58": "TM-041", "S": "TM-129", "T": "TM-131"}, (1, 2),
     "parking|plate|side|tail", ["switch-lighting"], "first step to pilot and tail"),
    (["switch-lighting"], "head", {"56": "TM-033", "H": "TM-130"}, (1, 1), "headlamp", ["switch-lighting"],
     "second step head and tail"),
    (["fuse-block-torpedo"], "feeds", {"15": "TM-009", "30": "TM-014", "58": "TM-041"}, (3, 3), "battery|plate", [],
     ""),
    (["horn-dc"], "horn", {"H": "TM-098"}, (1, 1), "-> 71", ["horn-dc"], "audible warning"),
    (["instrument-stabiliser"], "earth", {"E": "TM-120"}, (0, 1), "earth", ["instrument-stabiliser"],
     "case or E to the"),
    (["foreign-electrical"], "car control box", {"A1": "TM-119", "A": "TM-118", "D": "TM-116", "E": "TM-120",
                                                 "F": "TM-117"}, (0, 5), "control box|dynamo",
     ["foreign-electrical"], "fifth terminal A1"),
]
# Letters that no row covers: signs, plain numbering, cylinder marks, American and British relay letters, mains.
UNPUBLISHED = {
    "AL": CONTROLS, "BAT": ["cut-out", "regulator-three-unit"], "GEN": ["cut-out", "regulator-three-unit"],
    "ARM": ["regulator-three-unit"], "FLD": ["regulator-three-unit"], "30h": ["starter-dynamo"],
    "A": ["dynamo-american", "dynamo-third-brush", "regulator-three-unit"], "M": ["relay-starter", "starter-motor"],
    "B": ["cut-out", "instrument-stabiliser", "regulator-three-unit", "relay-starter"], "I": ["instrument-stabiliser"],
    "D": ["regulator-three-unit"], "E": ["regulator-three-unit"], "WL": ["regulator-three-unit"],
    "C1": ["relay-cube"], "C2": ["relay-cube"], "W1": ["relay-cube"], "W2": ["relay-cube"], "87": ["relay-starter"],
    "L": ["points-plate", "foreign-electrical"], "R": ["points-plate"], "N": ["foreign-electrical"],
}
# Parts whose terminals may bear plain numbers.
NUMBERED = ["foreign-electrical", "fuse-block-torpedo", "points-plate", "switch-ignition-key",
            "switch-lighting-alternator"]
# Rows of colour words, and how a person says that colour to the program.
SPOKEN = {"WC-015": "slate", "WC-017": "white/green", "WC-101": "violet"}
