"""Prints the chords of the four-part chorales that music21 ships as scores.

The counts that `core/src/harmony/usage` keeps were taken from what this prints.
The twenty chorales with human analyses, and any other setting with their BWV
number, are left out, so that those stay a fair test. One line for each chord,
in playing order, columns parted by tabs:

    piece  signature  bass  classes

`signature` counts sharps (flats negative), `classes` are all tones, bass first.
At every beat, and where the bass moves between beats, the notes that sound are
taken as a chord if they make a triad or a seventh chord (the fifth may be
missing); a beat that makes none, as under a suspension, is looked at again half
a beat later. A chord that repeats the one before it is left out.
Run:  python usage.py
"""

import re
from multiprocessing import Pool
from pathlib import Path

from music21 import common, converter

FIFTHS = "FCGDAEB"


def spelled(pitch):
    """`B-` of music21 as `Bb`."""
    return pitch.name.replace("-", "b")


def place(name):
    """Place of a spelled class on the line of fifths."""
    return FIFTHS.index(name[0]) - 1 + 7 * (name.count("#") - name[1:].count("b"))


# Chords as places on the line of fifths above their root: third, fifth, seventh.
CHORDS = [
    {0, 4, 1}, {0, -3, 1}, {0, -3, -6}, {0, 4, 8},
    {0, 4, 1, -2}, {0, -3, 1, -2}, {0, 4, 1, 5}, {0, -3, -6, -2}, {0, -3, -6, -9},
    {0, 4}, {0, -3}, {0, 4, -2}, {0, -3, -2}, {0, 4, 5},
]


def is_chord(classes):
    """Whether spelled classes make a triad or a seventh chord."""
    places = {place(name) for name in classes}
    return any({p - root for p in places} in CHORDS for root in places)


def is_strong(classes):
    """Whether classes make a plain triad, or a seventh chord with a tritone."""
    places = {place(name) for name in classes}
    strong = CHORDS[:3] + [{0, 4, 1, -2}, {0, -3, -6, -2}, {0, -3, -6, -9}, {0, 4, -2}]
    return any({p - root for p in places} in strong for root in places)


def ripens(last, classes):
    """Whether the classes are the last row's triad with a minor seventh above its bass."""
    before = last[3].split(" ")
    seventh = [name for name in classes if name not in before]
    return (
        before[0] == classes[0]
        and set(before) <= set(classes)
        and len(seventh) == 1
        and place(seventh[0]) - place(classes[0]) == -2
    )


def analysed():
    """The BWV numbers of the chorales that have analyses."""
    folder = Path(common.getCorpusFilePath()) / "bach" / "choraleAnalyses"
    texts = [path.read_text(encoding="utf-8") for path in folder.glob("*.rntxt")]
    found = (re.search(r"BWV: *([\d.()]+)", text) for text in texts)
    return {re.sub(r"\(.*\)", "", it.group(1)) for it in found if it}


def sounding(notes, at):
    """The notes of one part that sound at an offset."""
    return [pitches for start, end, pitches in notes if start <= at < end]


def chords(path):
    """The rows of one score."""
    score = converter.parse(path)
    if len(score.parts) != 4:
        return []
    signatures = list(score.recurse().getElementsByClass("KeySignature"))
    signature = signatures[0].sharps if signatures else 0
    parts = []
    for part in score.parts:
        flat = part.flatten()
        parts.append(
            [(n.offset, n.offset + n.quarterLength, n.pitches) for n in flat.notes if n.quarterLength > 0]
        )
    bass = parts[3]
    if not bass:
        return []
    end = max(stop for _, stop, _ in bass)
    moments = sorted({float(beat) for beat in range(int(end) + 1)} | {float(start) for start, _, _ in bass})
    rows, last, last_moment = [], None, None
    for moment in moments:
        on_beat = moment == int(moment)
        for at in [moment, moment + 0.5]:
            low = sounding(bass, at)
            upper = [pitches for part in parts[:3] for pitches in sounding(part, at)]
            if len(low) != 1 or len(upper) < 3:
                continue
            names = [spelled(low[0][0])]
            for pitches in upper:
                for pitch in pitches:
                    if spelled(pitch) not in names:
                        names.append(spelled(pitch))
            if len(names) < 3 or not is_chord(names):
                continue
            # Between beats only plain triads and the sevenths of dominants are chords;
            # half a beat after a chord only the seventh that ripens it.
            passing = not on_beat or (at != moment and rows and last_moment == moment)
            if passing and not is_strong(names):
                continue
            if at != moment and last_moment == moment and not ripens(last, names):
                continue
            row = (path.stem, str(signature), names[0], " ".join([names[0]] + sorted(names[1:])))
            if row != last:
                rows.append(row)
            last, last_moment = row, moment
    return rows


def main():
    """Prints every score."""
    folder = Path(common.getCorpusFilePath()) / "bach"
    out = analysed()
    paths = [
        path
        for path in sorted(folder.glob("bwv*.mxl"))
        if path.stem.removeprefix("bwv").split("-")[0] not in out
    ]
    with Pool() as pool:
        for rows in pool.imap(chords, paths):
            for row in rows:
                print("\t".join(row))


if __name__ == "__main__":
    main()
