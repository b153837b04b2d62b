"""Prints the basses of the chorales that music21 ships, as that library reads them.

Run:  python basses.py chorales|figured|largest
`chorales` prints one line for each chorale file, columns parted by tabs:

    path  pitches

`pitches` are the lowest part's notes, spelled as F#4 and B-3, ties joined, parted
by blanks; the lowest part is the one whose notes have the lowest average, where
parts with less than an eighth of the most notes are left aside. Notes in other
octaves than they sound count as written. Pieces whose lowest part has several
voices are no chorales and left out. Several processes share the work.
`largest` prints that of the largest file alone.
`figured` prints the same for Corelli, op. 3 no. 1, first movement, with the words
under its bass, which are figures, in place of pitches, parted by commas.
"""

import sys
from multiprocessing import Pool
from pathlib import Path


def bass(path):
    from music21 import converter

    score = converter.parse(path, forceSource=True)
    lines = []
    for part in score.parts:
        line, total = [], 0
        voices = part.recurse().getElementsByClass("Voice")
        for note in part.recurse().notes:
            if note.duration.isGrace:
                continue
            tied = note.tie is not None and note.tie.type in ("stop", "continue")
            if not tied:
                pitch = min(note.pitches, key=lambda p: p.diatonicNoteNum)
                line.append(pitch.nameWithOctave)
                total += pitch.ps
        if line:
            lines.append((total / len(line), line, bool(voices)))
    most = max(len(line) for _, line, _ in lines)
    lines = [it for it in lines if len(it[1]) * 8 >= most]
    _, lowest, voices = min(lines, key=lambda it: it[0])
    return None if voices else f"{path}\t" + " ".join(lowest)


def figured():
    from music21 import common, converter

    path = Path(common.getCorpusFilePath()) / "corelli" / "opus3no1" / "1grave.xml"
    score = converter.parse(path, forceSource=True)
    worded = [
        [" ".join(note.lyric.split()) for note in part.recurse().notes if note.lyric]
        for part in score.parts
    ]
    print(f"{path}\t" + ",".join(max(worded, key=len)))


def main(which):
    from music21 import common

    if which == "figured":
        return figured()
    root = Path(common.getCorpusFilePath()) / "bach"
    if which == "largest":
        print(bass(str(max(root.glob("*.mxl"), key=lambda file: file.stat().st_size))))
        return
    assert which == "chorales"
    with Pool() as pool:
        for line in pool.imap(bass, sorted(map(str, root.glob("*.mxl"))), chunksize=8):
            if line is not None:
                print(line)


if __name__ == "__main__":
    main(sys.argv[1])
