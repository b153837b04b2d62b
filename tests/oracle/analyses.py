"""Prints the human analyses that music21 ships as basses with their chords.

Twenty chorales (analysts: A. Jones, D. Tymoczko and others, proofread by
D. Tymoczko and H. Robb) and forty-eight madrigals (analyst: M. S. Cuthbert), in
the corpus of the music21 library. One line for each chord of the analysis, in
playing order, columns parted by tabs:

    piece  bass  numbers  root  tonality  classes  at

`bass` and `root` are spelled classes (B-flat is `Bb`), `numbers` the figures
above the bass from the top down (`53`, `6`, `65` ...), `tonality` the analyst's
local one (`F` major, `f` minor), `classes` all tones, bass first, `at` the time
from the beginning in quarters. A chord that
repeats the one before it, bass and all, is left out. Two blank columns never
occur. Run:  python analyses.py chorales|madrigals
"""

import sys
from pathlib import Path

from music21 import common, converter, roman


def spelled(pitch):
    """`B-` of music21 as `Bb`."""
    return pitch.name.replace("-", "b")


def numbers(chord):
    """The figure of a chord by its inversion and whether it has a seventh."""
    inversion = chord.inversion()
    if chord.seventh is not None:
        return ["7", "65", "43", "42"][inversion] if inversion <= 3 else "?"
    return ["53", "6", "64"][inversion] if inversion <= 2 else "?"


def events(path):
    """One row for each chord of an analysis that differs from the one before."""
    score = converter.parse(path, format="romanText")
    last = None
    for chord in score.recurse().getElementsByClass(roman.RomanNumeral):
        if not chord.pitches:
            continue
        key = chord.key
        tonic = spelled(key.tonic)
        tonality = tonic if key.mode == "major" else tonic[0].lower() + tonic[1:]
        bass = chord.bass()
        classes = [spelled(bass)]
        for pitch in chord.pitches:
            if spelled(pitch) not in classes:
                classes.append(spelled(pitch))
        row = (spelled(bass), numbers(chord), spelled(chord.root()), tonality, " ".join(classes))
        if row != last:
            yield row + (str(float(chord.getOffsetInHierarchy(score))),)
        last = row


def main(which):
    """Prints every piece of one of the two collections."""
    folder, pattern = {
        "chorales": ("bach/choraleAnalyses", "riemenschneider*.rntxt"),
        "madrigals": ("monteverdi", "madrigal*.rntxt"),
    }[which]
    root = Path(common.getCorpusFilePath()) / folder
    for path in sorted(root.glob(pattern)):
        for row in events(path):
            print("\t".join((path.stem,) + row))


if __name__ == "__main__":
    main(sys.argv[1])
