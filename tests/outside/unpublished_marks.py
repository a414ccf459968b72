"""Lead colours and terminal letters that the catalogue claims and no published row gives that meaning to, by the system
they belong to. Read by published_rows.py. Common practice from memory, no source: colour or letter -> what it is used
for there, and the families of parts that bear it for that reason. Whatever bears a mark that stands neither here nor in
published_marks.py is refused, and so is an entry here that no part needs."""

# Terminals and looms of every system: they carry whatever colour their circuit has.
GENERIC_WIRING = ["blade-terminal", "block-plug", "bullet-british", "bullet-japanese", "ring-terminal",
                  "splice-displacement", "loom-braided", "loom-pvc"]

UNPUBLISHED_LEADS = {
    "British practice": {
        "white/green": ("third alternator lead, and its switch", "stator connector switch"),
        "green/yellow": ("stop lamp, from the stop switch", "switch"),
        "white/brown": ("charge-warning control to its lamp", "warning loom"),
        "brown/blue": ("live battery feed of a Zener or a lighting coil", "zener stator"),
        "white/yellow": ("engine-stop switch to the coils", "switch"),
        "blue/red": ("oil-pressure lamp on some late machines", "switch"),
        "black/white": ("coil to points, also as one of two coil leads", "coil"),
        "purple/yellow": ("horn feed", "loom"),
        "green/red": ("temperature sender", "sender"),
        "white/black": ("coil to points or pulse unit", "meter"),
    },
    "continental practice": {
        "grey/black": ("tail lamp of the left side", "connector"),
        "black/white": ("magneto stop, short-circuit lead", "switch coil flywheel loom"),
        "black/yellow": ("magneto stop, second engine or circuit", "switch"),
        "white/black": ("main beam and headlamp of some light machines", "switch"),
        "yellow/red": ("dip beam or horn of a moped", "switch"),
        "blue/white": ("trigger lead of a self-generating ignition", "flywheel"),
        "black/red": ("stop or feed lead of a self-generating ignition", "flywheel"),
    },
    "Japanese practice": {
        "black/red": ("exciter coil to ignition unit; interlock and starter leads", "flywheel trigger switch sender"),
        "black/white": ("engine stop and ignition feed; side stand and tilt switches; field feed of a regulator",
                        "switch regulator flasher sender foreign"),
        "black/yellow": ("primary of the coil and exciter; interlock diodes and side stand",
                         "flywheel protection switch sender"),
        "black/blue": ("fuel pump, fan switch", "foreign sender"),
        "blue/black": ("fuel pump; side stand; main-beam tell-tale", "foreign sender switch lamp"),
        "blue/green": ("fluid level", "sender"),
        "blue/white": ("pulser; headlamp with starter", "trigger switch relay"),
        "blue/yellow": ("pulser; starter safety", "trigger relay switch"),
        "brown/white": ("indicator feed and tail-lamp feed", "switch flasher meter"),
        "green/red": ("clutch and neutral interlock", "protection relay sender switch"),
        "green/white": ("pulser; side stand interlock; field coil", "protection stator trigger relay switch sender"),
        "green/yellow": ("stop lamp", "switch warning lamp"),
        "light-blue/white": ("interlock diode", "protection"),
        "orange/green": ("headlamp cut-off while starting", "switch"),
        "orange/white": ("second coil", "trigger"),
        "red/black": ("engine stop, fused feed", "switch protection"),
        "red/white": ("battery through the main fuse; exciter; coil feed",
                      "loom connector flywheel trigger switch coil fuse protection rectifier regrec relay stator"),
        "red/yellow": ("fused feed", "protection switch"),
        "white/black": ("ignition coil, pulser or generator lead", "coil connector trigger"),
        "white/blue": ("pulser and generator lead", "coil trigger stator"),
        "white/green": ("pulser, generator lead", "trigger flasher stator"),
        "white/red": ("pulser, generator lead, starter", "trigger stator switch"),
        "white/yellow": ("fuel gauge", "sender"),
        "yellow/black": ("fuel gauge; side stand", "sender switch"),
        "yellow/green": ("self-cancelling, starter safety", "flasher relay switch"),
        "yellow/red": ("starter button to relay", "switch relay flasher"),
        "yellow/white": ("fuel gauge", "sender"),
    },
    "American practice": {
        "black/brown": ("flasher lamps", "flasher"),
        "orange/white": ("ignition feed of a coil with two leads", "coil"),
    },
    "makers of retrofit units, dial lamps and other trades": {
        "green/yellow": ("AC lead of a regulator-rectifier, charge resistor; protective earth of mains ware",
                         "regrec resistor foreign loom"),
        "white/green": ("AC lead of a regulator-rectifier", "regrec"),
        "white/yellow": ("charge-limiting resistor of a flywheel lighting set", "resistor"),
        "brown/white": ("capacitor flasher", "flasher"),
        "red/white": ("lamp for the dial", "foreign"),
    },
}

# Parts whose cylinders, ways, positions, pins or volts are numbered from 1.
NUMBERED = ["foreign-electrical", "fuse-block-torpedo", "points-plate", "switch-ignition-key",
            "switch-lighting-alternator", "distributor", "distributor-cap", "magneto-distributor", "magneto-v-twin",
            "junction-box-screened", "filter-box", "control-unit-keyless", "plug-multi-pin", "mains-ware",
            "socket-trailer", "switch-dash-american", "switch-ignition-earthing", "switch-toggle", "telephone-relay",
            "terminal-strip", "trickle-charger"]

UNPUBLISHED_LETTERS = {
    "British practice": {
        "AL": ("alternator side of a charge-warning control", "warning"),
        "A": ("battery side of a small regulator-rectifier", "regrec"),
        "B": ("battery, or feed of a gauge", "foreign regulator regrec relay starter switch"),
        "C1": ("relay contact", "relay"), "C2": ("relay contact, the other", "relay"),
        "W1": ("relay winding", "relay"), "W2": ("relay winding, the other", "relay"),
        "D": ("dynamo, on a three-coil box", "regulator"), "E": ("earth, on a three-coil box", "regulator"),
        "WL": ("warning lamp, on a three-coil box", "regulator"),
        "G": ("generator or gauge side", "meter zener regrec"),
        "I": ("stabilised output to the instruments", "meter foreign"),
        "S": ("sender", "meter"),
        "L": ("lamps; left-hand cylinder", "zener regrec warning trigger"),
        "R": ("right-hand cylinder; resistor in the field", "trigger switch"),
        "H": ("headlamp of a bottle dynamo", "dynamo"),
    },
    "continental practice": {
        "30h": ("starter field of a starter-dynamo", "dynamo regulator"),
        "54": ("feed of flashers and stop lamp through the ignition switch", "flasher switch"),
        "54G": ("trailer brake", "connector"), "87": ("output of a starter relay", "relay"),
        "S": ("tail lamp of a bottle dynamo", "dynamo"),
        "M": ("motor or earth", "zener"), "L": ("horn through its push", "horn"),
    },
    "American practice": {
        "A": ("armature, the reverse of A on a British box", "dynamo regulator"),
        "ARM": ("armature", "foreign regulator"), "GEN": ("generator", "regulator"),
        "FLD": ("field", "foreign regulator"), "BAT": ("battery", "foreign regulator protection"),
        "AUX": ("load side of a self-resetting breaker", "protection"), "IGN": ("ignition feed of a gauge", "meter"),
        "M": ("starter motor", "relay starter"),
    },
    "Japanese practice": {
        "M": ("motor of a starter-dynamo", "regulator"), "S": ("starter button", "regulator starter"),
        "Y": ("star point of an alternator", "rectifier"), "L": ("lamp of a charge relay", "warning"),
        "N": ("star point, on a charge relay", "warning"),
    },
    "component makers and other trades": {
        "A": ("anode", "protection"), "K": ("cathode", "protection"),
        "IN": ("converter input", "electronics"), "IN+": ("converter input", "electronics"),
        "IN-": ("converter input", "electronics"), "OUT": ("converter output", "electronics"),
        "OUT+": ("converter output", "electronics"), "OUT-": ("converter output", "electronics"),
        "NEG": ("minus post", "battery"), "POS": ("plus post", "battery"),
        "AC": ("horn on AC", "horn"), "WS": ("horn on AC, German word", "horn"),
        "L": ("mains, live", "foreign switch"), "N": ("mains, neutral", "foreign switch"),
        "L1": ("mains, first phase", "foreign"), "L2": ("mains, second phase", "foreign"),
        "C": ("mains timer or motor, common", "foreign"), "E": ("mains, earth", "foreign"),
    },
}
