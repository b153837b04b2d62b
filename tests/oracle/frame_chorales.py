"""Outer voices of the distinct four-part chorales that music21 ships, with music21's verdict on each move.

Prints one line for each moment at which either outer voice strikes or falls silent:

    file NAME
    rest
    at BASS SOPRANO PHRASE VERDICT INNER...

PHRASE is "end" where the soprano note before had a fermata, else "-". VERDICT joins by "+" what
music21's VoiceLeadingQuartet finds in the move from the moment before: fifth, octave, unison, and
"contrary" beside them where the voices move in opposite directions; hidden-fifth and hidden-octave;
"-" for none. INNER are the notes that the other two parts sound.
"""

import sys

from music21 import chord, corpus, voiceLeading
from music21.corpus import chorales


def distinct_files():
    """The files of the chorale collection, each once, in the collection's order."""
    seen = []
    for name in chorales.Iterator(returnType="filename"):
        if name not in seen:
            seen.append(name)
    return seen


def spans(part, which):
    """The notes and rests of a part without ties: start, end, note or None, fermata."""
    found = []
    for element in part.stripTies().flatten().notesAndRests:
        if element.duration.quarterLength == 0:
            continue
        note = None
        if isinstance(element, chord.Chord):
            note = element.sortAscending().notes[which]
        elif element.isNote:
            note = element
        fermata = any("Fermata" in e.classes for e in element.expressions)
        start = element.offset
        found.append((start, start + element.duration.quarterLength, note, fermata))
    return found


def sounding(found, time):
    for start, end, note, fermata in found:
        if start <= time < end:
            return start, note, fermata
    return time, None, False


def spelled(note):
    return note.pitch.nameWithOctave.replace("-", "b")


def verdict(before, now):
    quartet = voiceLeading.VoiceLeadingQuartet(before[1], now[1], before[0], now[0])
    found = []
    if quartet.parallelFifth():
        found.append("fifth")
    if quartet.parallelOctave():
        found.append("octave")
    if quartet.parallelUnison():
        found.append("unison")
    if found and quartet.contraryMotion():
        found.append("contrary")
    if quartet.hiddenFifth():
        found.append("hidden-fifth")
    if quartet.hiddenOctave():
        found.append("hidden-octave")
    return "+".join(found) or "-"


def main():
    out = []
    for name in distinct_files():
        score = corpus.parse(name)
        if len(score.parts) != 4:
            continue
        out.append("file " + name.split("/")[-1])
        parts = [spans(part, 0 if i == 3 else -1) for i, part in enumerate(score.parts)]
        times = sorted({start for part in (parts[0], parts[3]) for start, *_ in part})
        before = None
        phrase = False
        for time in times:
            voices = [sounding(part, time) for part in parts]
            soprano, bass = voices[0][1], voices[3][1]
            if soprano is None or bass is None:
                out.append("rest")
                before = None
                continue
            now = (bass, soprano)
            said = verdict(before, now) if before else "-"
            inner = [spelled(voice[1]) for voice in voices[1:3] if voice[1] is not None]
            words = ["at", spelled(bass), spelled(soprano), "end" if phrase else "-", said, *inner]
            out.append(" ".join(words))
            before = now
            phrase = voices[0][2]
    sys.stdout.write("\n".join(out) + "\n")


main()
