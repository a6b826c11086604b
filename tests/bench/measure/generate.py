"""Generated bassoon parts: bars of the project's own bassoon scores, transposed within range, in a seeded random order.

Some two hundred different bars come up again and again in ever new neighbourhood, as music repeats itself. Slurs and
ties that reach over a bar line are cut there.
"""

import copy
import pathlib
import random
import re
import xml.etree.ElementTree as ET

PROJECT = pathlib.Path(__file__).resolve().parents[3]
SCORES = ("lowland-round", "first-steps", "tenor-walk")
# Intervals as (steps of the staff, semitones); the keys they lead to stay usual.
INTERVALS = ((0, 0), (1, 2), (-1, -2), (1, 1), (-1, -1), (2, 3), (-2, -3), (2, 4), (3, 5), (-3, -5), (4, 7))
LOWEST, HIGHEST = 34, 74  # Bb1 to D5: the range of the bassoon, in semitones from C-1
STEPS = "CDEFGAB"
SEMITONES = (0, 2, 4, 5, 7, 9, 11)

HEAD = """<?xml version="1.0" encoding="UTF-8"?>
<score-partwise version="4.0">
  <work><work-title>Generated part</work-title></work>
  <part-list>
    <score-part id="P1">
      <part-name>Bassoon</part-name>
      <score-instrument id="P1-I1">
        <instrument-name>Bassoon</instrument-name><instrument-sound>wind.reed.bassoon</instrument-sound>
      </score-instrument>
    </score-part>
  </part-list>
  <part id="P1">
"""
TAIL = "  </part>\n</score-partwise>\n"


def sounding(step, alter, octave):
    return SEMITONES[step] + alter + 12 * octave + 12


def move(pitch, steps, semitones):
    """Transposes a <pitch>; False where it leaves the range or would need more than a double sign."""
    octave = int(pitch.findtext("octave"))
    step = STEPS.index(pitch.findtext("step"))
    alter = int(pitch.findtext("alter") or 0)
    target = sounding(step, alter, octave) + semitones
    degree = step + steps + 7 * octave
    new_octave, new_step = divmod(degree, 7)
    new_alter = target - sounding(new_step, 0, new_octave)
    if not LOWEST <= target <= HIGHEST or abs(new_alter) > 1:
        return False
    pitch[:] = []
    ET.SubElement(pitch, "step").text = STEPS[new_step]
    if new_alter:
        ET.SubElement(pitch, "alter").text = str(new_alter)
    ET.SubElement(pitch, "octave").text = str(new_octave)
    return True


def cut_at_bar_lines(measure):
    """Takes out slurs that do not start and stop within the bar, and ties that leave it."""
    open_slurs = {}
    for notations in measure.iter("notations"):
        for slur in notations.findall("slur"):
            number = slur.get("number", "1")
            if slur.get("type") == "start":
                open_slurs[number] = (notations, slur)
            elif slur.get("type") == "stop" and open_slurs.pop(number, None) is None:
                notations.remove(slur)
    for notations, slur in open_slurs.values():
        notations.remove(slur)
    for tag, parent in (("tie", "note"), ("tied", "notations")):
        for element in list(measure.iter(parent)):
            for tie in element.findall(tag):
                element.remove(tie)


def bars():
    """Every bar in every transposition that stays in range: (number of notes, text without number)."""
    found = []
    for score in SCORES:
        attributes = {}
        for measure in ET.parse(PROJECT / "scores" / f"{score}.musicxml").getroot().iter("measure"):
            for element in measure.findall("attributes"):
                attributes.update({child.tag: child for child in element})
                measure.remove(element)
            for tag in ("direction", "barline", "print"):
                for element in measure.findall(tag):
                    measure.remove(element)
            cut_at_bar_lines(measure)
            for steps, semitones in INTERVALS:
                moved = copy.deepcopy(measure)
                if not all([move(pitch, steps, semitones) for pitch in moved.iter("pitch")]):
                    continue
                head = ET.Element("attributes")
                head.extend(attributes[tag] for tag in ("divisions", "key", "time", "clef"))
                moved.insert(0, head)
                notes = len(list(moved.iter("pitch")))
                text = re.sub(r">\s+<", "><", ET.tostring(moved, encoding="unicode"))
                if notes:
                    found.append((notes, text[text.index(">") :].rstrip()))
    return found


TEMPO = '<direction><direction-type><metronome><beat-unit>quarter</beat-unit><per-minute>92</per-minute></metronome></direction-type><sound tempo="92"/></direction>'


def write_part(file, notes, seed):
    """Writes a part of at least so many notes; returns how many there are."""
    every = bars()
    order = random.Random(seed)
    written, number = 0, 0
    with open(file, "w", encoding="utf-8") as out:
        out.write(HEAD)
        while written < notes:
            count, text = order.choice(every)
            number += 1
            if number == 1:
                text = text.replace("</attributes>", "</attributes>" + TEMPO, 1)
            out.write(f'<measure number="{number}"{text}\n')
            written += count
        out.write(TAIL)
    return written
