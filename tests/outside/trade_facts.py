"""Facts of the trade against the shipped program and catalogue: what a practitioner measured, goes by or warns of.

Common practice, no source: that holds for every fact of this file. Each one is a function, named by its own words,
that asks the real program and returns what it misses. Afterwards the same questions are put to a catalogue compiled
from spoiled sources (SPOILED), where each of them must miss something.

Use: python3 trade_facts.py LOOMKEY_PROGRAM CATALOGUE.sqlite
"""

import re
import shutil
import sys
import tempfile
from pathlib import Path

import program

RECTIFIER = {"form": "plate-stack", "plate_count": 4, "finish": "bright-metal", "size_long": "50 mm", "mass": "85 g",
             "terminal_kind": "blade", "letters": "none", "lead_count": 0, "mounting": "own-stud"}
FLASHER = {"form": "can", "finish": "bright-metal", "size": "28 dia x 42 mm", "terminal_count": 2,
           "terminal_kind": "blade", "letters": "B L", "lead_count": 0, "ohm_feed_lamp": "8 ohm"}
CAPACITOR = {"form": "cylinder", "finish": "colour-paint", "size": "35 dia x 78 mm", "terminal_count": 2,
             "lead_count": 0, "mounting": "spring", "ohm_behaviour": "climbs"}
BATTERY = {"form": "box", "terminal_count": 2, "shows_caps": "yes", "shows_vent": "yes", "mass": "3500 g"}
ROTOR = {"form": "rotor", "finish": "bare-alloy", "size": "72 dia x 35 mm", "mass": "1000 g", "bore": "parallel",
         "magnet": "is-magnet", "shows_magnets": "yes", "lead_count": 0}
REGREC = {"form": "finned-block", "finish": "bare-alloy", "lead_count": 5, "leads_alike": 3, "lead_style": "plastic",
          "lead_colours": "yellow, red, black", "terminal_count": 0, "shows_resin": "yes", "diode_legs": "6+",
          "letters": "none", "size": "80 x 60 x 25 mm", "mass": "250 g"}
MODULE = {"form": "box", "shows_resin": "yes", "terminal_count": 3, "terminal_kind": "blade", "letters": "none",
          "lead_count": 0, "diode_legs": "odd", "mounting": "bracket"}
POLARITY_SENSITIVE = ["regrec-1ph", "regrec-3ph", "regrec-mosfet", "regrec-factory-3ph", "flasher-electronic",
                      "ignition-box", "regulator-field-solid", "charge-control-electronic", "battery-monitor"]
# Parts of a family to which what holds for the rest of it does not apply, and why not.
NO_CHARGE_RECTIFIER = {"diode-inline": "mostly parts two circuits or keeps the battery from feeding back"}
NO_AC_WINDING = {"alternator-brush-holder": "brings DC to the rotor", "field-coil-brushless": "is fed with DC",
                 "stator-lead-grommet": "lets the leads of a stator through the cover"}
UNMEASURED_AC = {"stator-outer-four-pin": "two windings of unlike volts: the trait knows two or three leads only"}


def words_of(value):
    """Every text inside a JSON value, in order, as one."""
    if isinstance(value, dict):
        value = list(value.values())
    return " ".join(map(words_of, value)) if isinstance(value, list) else str(value)


class Counter:
    """The program, as somebody with a question meets it."""

    def __init__(self, loomkey):
        self.loomkey, self.shown = loomkey, {}

    def part(self, name):
        if name not in self.shown:
            self.shown[name] = self.loomkey.json("parts", "show", name)
        return self.shown[name]

    def family(self, family):
        return [part["part"] for part in self.loomkey.json("parts", "list")["parts"] if part["family"] == family]

    def lacks(self, name, what, *patterns):
        """Which patterns are not said; `what` is a key of the part or of its advice record."""
        part = self.part(name)
        text = words_of(part[what] if what in part else part["advice_record"][what])
        return [f"{name}, {what}: not '{pattern}'" for pattern in patterns if not re.search(pattern, text)]

    def lacks_caution(self, name, caution):
        given = [each["id"] for each in self.part(name)["advice_record"]["cautions"]]
        return [] if caution in given else [f"{name}: no caution '{caution}'"]

    def claim(self, name, trait):
        """What the part claims of a trait, None where it claims nothing."""
        return next((claim for claim in self.part(name)["claims"] if claim["trait"] == trait), None)

    def compare(self, one, other):
        return self.loomkey.json("compare", one, other)

    def identify(self, readings, guess=None, **bike):
        words = [word for trait, value in readings.items() for word in ("--reading", f"{trait}={value}")]
        words += [word for key, value in bike.items() for word in ("--bike", f"{key}={value}")]
        words += ["--guess", guess] if guess else []
        return self.loomkey.json("identify", "--exit-zero", "--candidates", 50, *words)

    def leading(self, readings, guess=None, **bike):
        """Part and its likeliest condition."""
        part = self.identify(readings, guess, **bike)["candidates"][0]
        return part["part"], max(part["conditions"], key=lambda each: each["probability"])["condition"]


FACTS = []


def fact(question):
    FACTS.append(question)
    return question


def leads_to(counter, wanted, readings, guess=None, **bike):
    found = counter.leading(readings, guess, **bike)
    found = found if isinstance(wanted, tuple) else found[0]
    return [] if found == wanted else [f"{readings} {bike}: led to {found}, not {wanted}"]


@fact
def a_12_v_battery_that_is_kept_charged_sits_between_12_6_and_14_4_v(ask):
    """Above that it is overcharged, below it is discharging. A sealed, lithium or 6 V one has limits of its own."""
    return (ask.lacks("battery-12v-vented", "checks", r"12\.6 V at rest to 14\.4 V charging",
                      r"above 14\.4 V it is overcharged; below 12\.6 V it is discharging")
            + ask.lacks("battery-sealed", "checks", r"to 14\.6 V", r"over about 14\.8 V")
            + ask.lacks("battery-lithium", "checks", r"never above 14\.6")
            + ask.lacks("battery-6v-rubber", "substitutes", r"never above 7\.5")
            + leads_to(ask, ("battery-12v-vented", "good"), BATTERY | {"rest_volts": "12.65 V"})
            + leads_to(ask, ("battery-12v-vented", "flat"), BATTERY | {"rest_volts": "11.3 V"}))


@fact
def a_rectifier_alone_does_not_regulate(ask):
    """Old or new: the charge rises with engine speed, and something else must limit it."""
    problems = ask.lacks("rectifier-silicon-plate", "cautions", "climb with engine speed unless a Zener or a reg")
    for name in ask.family("rectifier"):
        problems += ask.lacks(name, "function", "does not regulate")
        warns = not ask.lacks_caution(name, "no-regulation")
        problems += [] if warns != (name in NO_CHARGE_RECTIFIER) else [f"{name}: no-regulation cautioned: {warns}"]
    return problems


@fact
def a_zener_holds_the_volts_and_turns_the_surplus_into_heat(ask):
    """It conducts above its threshold; plate or casting carry the heat away."""
    return [problem for name in ("zener-on-sink", "zener-stud", "zener-pack") for problem in
            ask.lacks(name, "function", "into heat") + ask.lacks_caution(name, "hot-in-use")
            ] + ask.lacks("zener-on-sink", "function", "Holds the battery volts: it starts to conduct near")


@fact
def the_rectifier_of_two_zener_machines_cannot_be_told_by_eye(ask):
    """Count the Zeners and measure: no look or meter reading of the part itself separates it from the earlier one."""
    pair = ("rectifier-silicon-plate", "rectifier-silicon-plate-heavy")
    separating = [each["trait"] for each in ask.compare(*pair)["separations"]]
    asked = [each["trait"] for each in ask.identify(RECTIFIER | {"diode_legs": "4-5"})["questions"]]
    problems = [] if separating == ["zeners_on_bike"] else [f"separated by {separating}"]
    problems += [] if "zeners_on_bike" in asked else [f"asked {asked}, not for the Zeners"]
    return (problems + ask.lacks(pair[1], "checks", "count the Zeners", "full load")
            + ask.lacks("stator-1ph-high-output", "function", "two linked Zeners")
            + leads_to(ask, pair[0], RECTIFIER | {"zeners_on_bike": "1"})
            + leads_to(ask, pair[1], RECTIFIER | {"zeners_on_bike": "2+"}))


@fact
def a_potted_bridge_as_big_as_a_postage_stamp_superseded_the_plate_rectifier(ask):
    """It is used together with the same Zener."""
    stamp = {"form": "pad", "size": "about as big as a postage stamp", "terminal_count": 4}
    return (ask.lacks("rectifier-silicon-plate", "substitutes", "potted square bridge.*with the same Zener")
            + ask.lacks("bridge-potted", "function", "together with the same Zener")
            + leads_to(ask, "bridge-potted", stamp))


@fact
def one_regulator_rectifier_replaces_both_rectifier_and_zener(ask):
    return [problem for name in ("rectifier-silicon-plate", "zener-on-sink", "bridge-potted") for problem in
            ask.lacks(name, "substitutes", "regulator-rectifier, in place of (rectifier|bridge) and Zener")
            + ask.lacks(name, "redundant_when", "both come out") + ask.lacks_caution(name, "remove-rectifier-and-zener")
            ] + ask.lacks("regrec-1ph", "function", "One such unit replaces rectifier and Zener")


@fact
def a_three_phase_unit_serves_a_two_lead_stator_on_any_two_of_its_ac_leads(ask):
    """The third is left off and insulated. The steps say so once the earth was measured."""
    verdict = ask.identify(REGREC, earth_measured="negative", decade="1990s")["verdict"]
    steps = [each["connect"] or "" for each in verdict["substitutes"] if "two-lead" in each["what"]]
    told = any("two stator leads to any two AC leads" in each for each in steps)
    return ([] if told else [f"the steps are {steps}"]) + [
        problem for name, what in (("regrec-3ph", "function"), ("zener-on-sink", "substitutes")) for problem in
        ask.lacks(name, what, "any two of its three equal AC leads, (the )?third insulated")
        ] + ask.lacks("regrec-1ph", "substitutes", "on two of its AC leads", "third AC lead cut square, insulated")


@fact
def a_mosfet_unit_holds_about_14_3_v_from_a_brisk_tick_over_upwards(ask):
    return (ask.lacks("regrec-mosfet", "function", r"holds about 14\.3 V from a brisk tick-over upwards")
            + ask.lacks("regrec-mosfet", "checks", r"about 14\.3 V, steady"))


@fact
def the_earthed_post_names_the_system_and_is_found_out_before_anything_is_fitted(ask):
    """Reversed polarity destroys electronic parts. No steps are shown before the earth was measured; afterwards plus
    goes to the frame of a positive-earth machine, minus to that of a negative-earth one."""
    problems = [problem for name in POLARITY_SENSITIVE for problem in ask.lacks_caution(name, "earth-first")]
    problems += ask.lacks("regrec-1ph", "cautions", "which battery post goes to the frame.*Reversed polarity destroys")
    problems += ask.lacks("battery-12v-vented", "function", "post that goes to the frame names the earth")
    for earth, to_frame in (("unknown", None), ("positive", r"plus \(red\) lead to the frame"),
                            ("negative", r"minus \(black\) lead to the frame")):
        finding = ask.identify(REGREC, earth_measured=earth, decade="1990s")
        steps = finding["verdict"]["substitutes"][0]["connect"]
        if (steps is not None) if to_frame is None else not re.search(to_frame, steps or ""):
            problems.append(f"earth {earth}: the steps are {steps}")
    return problems


@fact
def a_vent_pipe_puts_acid_on_chain_guard_chain_and_wheel(ask):
    """So a sealed battery is the better replacement."""
    return (ask.lacks("battery-12v-vented", "cautions", "chain, chain guard and wheel: the vapour eats them")
            + ask.lacks("battery-12v-vented", "substitutes", "sealed 12 V battery.*the best choice: no vent pipe")
            + ask.lacks("battery-12v-vented", "checks", "acid vapour on chain guard, chain and wheel"))


@fact
def capacitor_charge_warning_can_and_canned_flasher_are_mistaken_for_one_another(ask):
    """A canned flasher also for the small potted rectifier and for a car flasher. Each names the other."""
    pairs = [("capacitor-electrolytic", "charge-control-can"), ("capacitor-electrolytic", "flasher-thermal-2"),
             ("charge-control-can", "flasher-thermal-2"), ("flasher-thermal-2", "bridge-potted"),
             ("flasher-thermal-2", "flasher-car")]
    problems = []
    for pair in pairs:
        comparison = ask.compare(*pair)
        told = {(tell["part"], tell["look_alike"]) for tell in comparison["tells"]}
        problems += [f"{one}: does not name {other}" for one, other in (pair, pair[::-1]) if (one, other) not in told]
        problems += [] if comparison["separations"] else [f"{pair}: nothing separates them"]
    return (problems + leads_to(ask, "capacitor-electrolytic", CAPACITOR, guess="flasher")
            + leads_to(ask, "flasher-thermal-2", FLASHER, guess="capacitor"))


@fact
def the_modern_capacitor_has_two_wires_and_is_packed_into_the_old_spring(ask):
    """Electrically interchangeable; it differs in size and must not rattle."""
    leads = ask.claim("capacitor-modern", "lead_count")["states"]
    return ([] if leads.get("2", 0) > 0.5 else [f"leads: {leads}"]) + ask.lacks(
        "capacitor-electrolytic", "substitutes", "modern large capacitor with two wires",
        "works the same; differs in size: pack it so that it cannot rattle in the old spring") + ask.lacks(
        "capacitor-modern", "function", "Works just as the old spring-hung capacitor")


@fact
def the_place_of_a_flasher_is_weak_evidence(ask):
    """Headlamp shell, the gusset plate of the frame, or wherever a former owner put it."""
    problems = ask.lacks("flasher-thermal-2", "where", "headlamp shell or the gusset plate")
    problems += ask.lacks("flasher-thermal-2", "strays", "anywhere a former owner put it")
    for place in ("headlamp", "frame", "under-seat", "under-tank", "rear", "handlebar", "loose"):
        problems += leads_to(ask, "flasher-thermal-2", FLASHER | {"place": place})
        # Seven decibans would make it five times likelier, or less likely; the usual places speak for it.
        lowest = 0 if place in ("headlamp", "frame") else -7
        weights = [each["conditions"][0]["weights"][0] for each in ask.identify({"place": place})["candidates"]
                   if each["part"] == "flasher-thermal-2"]
        problems += [] if weights and lowest < weights[0] < 7 else [f"{place}: {weights} decibans"]
    return problems


@fact
def late_points_ignition_has_a_pair_of_condensers_in_a_rubber_cover_and_a_ballast(ask):
    """The ballast sits near the coils; a modern one looks different."""
    finish = [each["trait"] for each in ask.compare("ballast-ceramic", "ballast-modern")["separations"]]
    return ([] if "finish" in finish else [f"the ballasts are separated by {finish}"]) + ask.lacks(
        "condenser-pair", "function", "the last years of points, with a ballast resistor near the coils") + ask.lacks(
        "condenser-pair", "name", "one rubber cover") + ask.lacks(
        "ballast-ceramic", "substitutes", "it looks different: gold or flat metal instead of white ceramic")


@fact
def a_ballast_burns_skin_at_once(ask):
    """No fingers under the coil clamp after running."""
    return [problem for name in ("ballast-ceramic", "ballast-modern") for problem in ask.lacks(
        name, "function", "hot enough to burn skin at once. No fingers under the coil clamp after running")
        + ask.lacks_caution(name, "hot-in-use")]


@fact
def the_charge_warning_control_exists_as_a_can_and_as_a_potted_unit(ask):
    """Both do the same; replacements differ a little in size."""
    return (ask.lacks("charge-control-electronic", "function", "Does the work of the old heated-wire can")
            + ask.lacks("charge-control-can", "substitutes", "electronic charge-warning unit",
                        "slightly larger or smaller than the old can"))


@fact
def the_two_later_charge_modules_look_and_measure_alike(ask):
    """One is for a market where the headlamp is always on: neither is ever settled by readings of the part."""
    pair = ("charge-module", "charge-module-daylight")
    separations = ask.compare(*pair)["separations"]
    finding = ask.identify(MODULE)
    chances = {each["part"]: each["probability"] for each in finding["candidates"]}
    problems = [f"separated by {each['trait']}" for each in separations]
    problems += [f"{name}: {chances.get(name, 0)}" for name in pair if chances.get(name, 0) < 0.1]
    problems += ["settled" for name in pair if (finding["status"], finding["verdict"]["part"]) == ("settled", name)]
    return problems + ask.lacks(pair[1], "function", "two versions that look identical.*headlamp is always on")


@fact
def lamp_and_control_only_tell_that_the_alternator_turns(ask):
    """A battery condition monitor tells what the battery gets, and makes both redundant."""
    return (ask.lacks("charge-control-can", "function", "only tells that the alternator turns, not that the battery is")
            + ask.lacks("battery-monitor", "function", "what the battery gets", "charge lamp and its control redundant")
            + [problem for name in ("charge-control-can", "charge-control-electronic", "warning-lamp")
               for problem in ask.lacks(name, "redundant_when", "battery condition monitor")])


def likelier_fault(ask, symptom, likelier, other):
    part = ask.identify(ROTOR, symptoms=symptom)["candidates"][0]
    chances = {each["condition"]: each["probability"] for each in part["conditions"]}
    return [] if chances.get(likelier, 0) > chances.get(other, 0) else [f"{symptom}: {part['part']} {chances}"]


@fact
def a_loose_rotor_centre_upsets_timing_and_a_weak_rotor_the_charge(ask):
    """In the hand it may feel tight: it is checked fastened on the crankshaft."""
    return (ask.lacks("rotor-pm-hex", "checks", "in the hand it may feel tight", "bolt the rotor on the crankshaft")
            + ask.lacks("rotor-pm-hex", "conditions", "sets up and runs, then spits, pops and will not start again")
            + [problem for symptom, likelier, other in (("timing wanders", "loose-centre", "weak"),
                                                        ("low charge", "weak", "loose-centre"))
               for problem in likelier_fault(ask, symptom, likelier, other)])


@fact
def stators_make_ac_and_the_battery_is_dc(ask):
    problems, stators = [], set(ask.family("stator"))
    for name in sorted(stators - NO_AC_WINDING.keys()):
        problems += ask.lacks(name, "function", r"\bAC\b")
        running = ask.claim(name, "run_ac")
        if running is None:
            problems += [] if name in UNMEASURED_AC else [f"{name}: claims nothing of the AC between its leads"]
        elif running["states"].get("none", 0) > 0.5:
            problems.append(f"{name}: AC between its leads: {running['states']}")
    for name in sorted(NO_AC_WINDING):
        problems += [] if name in stators and not ask.claim(name, "run_ac") else [f"{name}: needs no exemption"]
    return (problems + ask.lacks("rectifier-silicon-plate", "function", "AC into DC")
            + ask.lacks("bridge-potted", "function", "AC into DC") + ask.lacks("horn-dc", "function", "on DC only"))


@fact
def a_lithium_battery_is_smaller_than_the_lead_acid_one_it_replaces(ask):
    """So it must be packed."""
    problems = ask.lacks("battery-lithium", "function", "is smaller than the lead battery it replaces, so it must be")
    for trait in ("size_long", "size_mid", "size_short", "mass"):
        lithium, lead = (max(ends["high"] for ends in ask.claim(name, trait)["ranges"])
                         for name in ("battery-lithium", "battery-12v-vented"))
        problems += [] if lithium <= lead else [f"{trait}: up to {lithium}, lead up to {lead}"]
    return problems


# What is spoiled in the sources for the second round, so that every fact misses something: files, pattern, replacement.
SPOILED = [
    ("parts/battery.toml", r"14\.4 V charging", "15.4 V charging"),
    ("advice/rectification.toml", "It does not regulate", "It regulates"),
    ("advice/regulation.toml", "into heat", "into nothing"),
    ("parts/rectifier.toml", r'(?m)^zeners_on_bike = .*$', 'zeners_on_bike = "1"'),
    ("advice/rectification.toml", "with the same Zener", "with no Zener"),
    ("advice/*.toml", "in place of (rectifier|bridge) and", "beside rectifier and"),
    ("advice/*.toml", "[Aa]ny two", "all three"),
    ("advice/regulation.toml", r"14\.3 V", "15.3 V"),
    ("advice/ignition.toml", '"earth-first", ', ""),
    ("cautions.toml", "chain guard", "saddle"),
    ("parts/capacitor.toml", r'(\[\[part\.lookalike\]\]\npart = )"charge-control-can"', r'\1"battery-lithium"'),
    ("advice/storage.toml", "rattle", "hum"),
    ("families/signals.toml", r"(?m)^place = \{ headlamp = 0\.32.*$", 'place = "headlamp"'),
    ("advice/ignition.toml", "near the coils", "in the tool box"),
    ("advice/ignition.toml", "burn skin at once", "warm the hand"),
    ("advice/warning.toml", "slightly larger or smaller", "of the same size"),
    ("parts/warning.toml", r'(id = "charge-module-daylight"(?:\n.*)*?\nfinish = ).*', r'\1"glass"'),
    ("advice/warning.toml", "only tells that the alternator turns", "tells all"),
    ("parts/rotor.toml", r'"timing-wanders"', '"low-charge"'),
    ("advice/generation.toml", "Makes AC", "Makes DC"),
    ("advice/storage.toml", "It is smaller than", "It is larger than"),
]


def spoiled_catalogue(loomkey, folder):
    """A catalogue of the spoiled sources in `folder`, and what could not be spoiled."""
    sources, problems = Path(folder) / "data", []
    shutil.copytree(program.ROOT / "data", sources)
    for files, pattern, replacement in SPOILED:
        changed = 0
        for path in sources.glob(files):
            text, count = re.subn(pattern, replacement, path.read_text(encoding="utf-8"))
            path.write_text(text, encoding="utf-8")
            changed += count
        problems += [] if changed else [f"'{pattern}' stands nowhere in data/{files}"]
    built = Path(folder) / "spoiled.sqlite"
    done = loomkey.run("catalogue", "build", "--from", sources, "--to", built)
    return built, problems + ([] if done.returncode == 0 else [done.stderr.strip()])


def main():
    path, catalogue = program.arguments()
    loomkey, report = program.Program(path, catalogue), program.Report()
    counter = Counter(loomkey)
    for fact in FACTS:
        report.tell(fact.__name__.replace("_", " ") + " (common practice, no source)", fact(counter))
    with tempfile.TemporaryDirectory() as folder:
        built, problems = spoiled_catalogue(loomkey, folder)
        if not problems:
            worse = Counter(program.Program(path, built))
            problems = [fact.__name__.replace("_", " ") for fact in FACTS if not fact(worse)]
        report.tell("every fact is missed in a catalogue of spoiled sources", problems)
    return report.end()


if __name__ == "__main__":
    sys.exit(main())
