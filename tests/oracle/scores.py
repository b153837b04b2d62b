"""Reads scores and MIDI files with libraries of others and prints what they hold.

Run:  python scores.py schema|music21|partitura|figures|midi|tracks < input
`input` is scores as MusicXML text, or MIDI files in hexadecimal, parted by form
feeds. The answers are parted by form feeds too.

    schema     `valid`, or why the score is not, by the published schema
    music21    a line for each chord: measure, staff, pitches from the bottom up
    partitura  the same, by another library
    figures    a line for each measure with figures: the elements of each figure, as
               the musicxml library reads them
    midi       a line for each note: channel, key, down and up in microseconds
    tracks     a line for each track: name, channels, count of tempos; then master
               tuning in cents from 440 Hz, and the offset of each of twelve notes

Pitches are spelled as F#4 and B-3; a small note is marked with `~`.
The schema is the one that the musicxml package carries, with the two schemas it
refers to reduced to the attributes that scores use.
"""

import io
import sys
import tempfile
from pathlib import Path

XLINK = """<xs:schema xmlns:xs="http://www.w3.org/2001/XMLSchema"
 targetNamespace="http://www.w3.org/1999/xlink">
<xs:attribute name="href" type="xs:anyURI"/><xs:attribute name="type" type="xs:string"/>
<xs:attribute name="role" type="xs:string"/><xs:attribute name="title" type="xs:string"/>
<xs:attribute name="show" type="xs:string"/><xs:attribute name="actuate" type="xs:string"/>
</xs:schema>"""
XML = """<xs:schema xmlns:xs="http://www.w3.org/2001/XMLSchema"
 targetNamespace="http://www.w3.org/XML/1998/namespace">
<xs:attribute name="lang" type="xs:language"/><xs:attribute name="space" type="xs:NCName"/>
</xs:schema>"""


def schema():
    """A function from a score to the verdict of the published schema."""
    import re
    from importlib.util import find_spec

    from lxml import etree

    package = Path(find_spec("musicxml").submodule_search_locations[0])
    text = (package / "generate_classes" / "musicxml_4_0.xsd").read_text(encoding="utf-8")
    text = re.sub(r'schemaLocation="[^"]*/([^"/]*)"', r'schemaLocation="\1"', text)
    with tempfile.TemporaryDirectory() as folder:
        for name, content in [("s.xsd", text), ("xlink.xsd", XLINK), ("xml.xsd", XML)]:
            (Path(folder) / name).write_text(content, encoding="utf-8")
        checker = etree.XMLSchema(etree.parse(str(Path(folder) / "s.xsd")))

    def verdict(score):
        document = etree.fromstring(score.encode())
        return "valid" if checker.validate(document) else str(checker.error_log.last_error)

    return verdict


def staff_of(part):
    """music21 makes a part of each staff, the upper first."""
    return 2 if "Staff2" in str(part.id) else 1


def with_music21(score):
    from music21 import converter

    lines = []
    for part in converter.parse(score, format="musicxml").parts:
        for measure in part.getElementsByClass("Measure"):
            for note in measure.recurse().notes:
                small = "~" if note.duration.isGrace else ""
                pitches = sorted(note.pitches, key=lambda p: (p.ps, p.diatonicNoteNum))
                names = " ".join(p.nameWithOctave for p in pitches)
                lines.append(f"{measure.number}\t{staff_of(part)}\t{small}{names}")
    return "\n".join(lines)


def figures(score):
    import re

    from musicxml.parser.parser import parse_musicxml

    # That library cannot hold an element with an attribute called name.
    score = re.sub(r"<miscellaneous>.*?</miscellaneous>", "", score, flags=re.DOTALL)
    with tempfile.NamedTemporaryFile(suffix=".musicxml") as file:
        file.write(score.encode())
        file.flush()
        document = parse_musicxml(file.name)
    lines = []
    for part in document.find_children("XMLPart"):
        for measure in part.find_children("XMLMeasure"):
            for sign in measure.find_children("XMLFiguredBass"):
                parts = [
                    " ".join(f"{child.name}={child.value_ or ''}" for child in figure.get_children())
                    for figure in sign.find_children("XMLFigure")
                ]
                lines.append(f"{measure.number}\t" + "; ".join(parts))
    return "\n".join(lines)


def with_partitura(score):
    import warnings

    import partitura

    warnings.simplefilter("ignore")
    with tempfile.NamedTemporaryFile(suffix=".musicxml") as file:
        file.write(score.encode())
        file.flush()
        parts = partitura.load_musicxml(file.name)
    if not hasattr(parts, "parts"):
        parts = [parts]
    part = parts[0]
    chords = {}
    for note in part.notes:
        small = isinstance(note, partitura.score.GraceNote)
        number = note.start.t // 4 + 1
        sign = {-2: "--", -1: "-", 0: "", None: "", 1: "#", 2: "##"}[note.alter]
        name = f"{note.step}{sign}{note.octave}"
        chords.setdefault((note.staff, number, not small), []).append((note.midi_pitch, name))
    lines = []
    for (staff, number, full), notes in sorted(chords.items()):
        if full:
            lines.append(f"{number}\t{staff}\t" + " ".join(name for _, name in sorted(notes)))
        else:
            lines += [f"{number}\t{staff}\t~{name}" for _, name in notes]
    return "\n".join(lines)


def midi(text):
    import mido

    file = mido.MidiFile(file=io.BytesIO(bytes.fromhex(text)))
    now, down, lines = 0.0, {}, []
    for message in file:
        now += message.time
        if message.type not in ("note_on", "note_off"):
            continue
        place = (message.channel, message.note)
        if message.type == "note_on" and message.velocity > 0:
            assert place not in down, "a key goes down twice"
            down[place] = now
        else:
            start = down.pop(place)
            lines.append((start, message.note, message.channel, now))
    assert not down, "a key stays down"
    return "\n".join(
        f"{channel}\t{key}\t{round(start * 1e6)}\t{round(end * 1e6)}"
        for start, key, channel, end in sorted(lines)
    )


def tracks(text):
    """Tuning by the MIDI Tuning Standard: scale/octave tuning, two-byte form, and master tuning."""
    import mido

    file = mido.MidiFile(file=io.BytesIO(bytes.fromhex(text)), charset="utf-8")
    lines, master, offsets = [], 0.0, [0.0] * 12

    def fourteen(high, low):
        return (high * 128 + low - 8192) / 81.92

    for track in file.tracks:
        channels = sorted({m.channel for m in track if m.type in ("note_on", "note_off")})
        tempos = sum(m.type == "set_tempo" for m in track)
        lines.append(f"{track.name}\t{channels}\t{tempos}")
        for message in track:
            if message.type != "sysex":
                continue
            data = message.data
            if data[:4] == (0x7F, 0x7F, 0x04, 0x03):
                master += fourteen(data[5], data[4])
            elif data[:4] == (0x7F, 0x7F, 0x04, 0x04):
                master += 100 * (data[5] - 64)
            else:
                assert data[:7] == (0x7E, 0x7F, 0x08, 0x09, 0x03, 0x7F, 0x7F), data
                assert len(data) == 31, len(data)
                offsets = [fourteen(*data[i : i + 2]) for i in range(7, 31, 2)]
    lines.append(f"{master:.3f}")
    lines.append(" ".join(f"{offset:.3f}" for offset in offsets))
    return "\n".join(lines)


def main():
    answers = {
        "music21": with_music21,
        "partitura": with_partitura,
        "figures": figures,
        "midi": midi,
        "tracks": tracks,
    }
    answer = schema() if sys.argv[1] == "schema" else answers[sys.argv[1]]
    print("\f".join(answer(text) for text in sys.stdin.read().split("\f")), end="")


main()
