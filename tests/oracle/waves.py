"""Reads WAV files with libraries of others and measures the notes in them.

Run:  python waves.py FILE SECONDS COUNT
The file holds COUNT notes, one every SECONDS. Prints first what Python's own wave
module reads in the header, what libsndfile does, and the largest difference of
their samples in steps of the file; then each note's frequency in hertz.

    channels width rate frames
    channels subtype rate frames
    difference
    hertz hertz ...

The frequency is that of the strongest partial near the note's lowest one: its phase
is followed through windows of a second, so that the length of a window does not
limit it and nobody has to say beforehand what it should be.
"""

import sys
import wave

import numpy
import soundfile


def frequency(sound, rate):
    """The lowest strong partial, in hertz."""
    window = numpy.hanning(rate)
    spectrum = numpy.abs(numpy.fft.rfft(sound[:rate] * window))
    # The partials of these notes lie 100 Hz and more apart; a bin is one hertz.
    strong = [i for i in range(100, 1000) if spectrum[i] == max(spectrum[i - 50 : i + 50])]
    lowest = next(i for i in strong if spectrum[i] > 0.1 * max(spectrum))
    hop = rate // 50
    starts = range(0, len(sound) - rate, hop)
    turn = numpy.exp(-2j * numpy.pi * lowest * numpy.arange(len(sound)) / rate)
    points = [numpy.sum(sound[s : s + rate] * window * turn[s : s + rate]) for s in starts]
    phases = numpy.unwrap(numpy.angle(points))
    slope = numpy.polyfit(numpy.array(starts) / rate, phases, 1, w=numpy.abs(points))[0]
    return lowest + slope / (2 * numpy.pi)


def main(name, seconds, count):
    with wave.open(name) as file:
        width, rate = file.getsampwidth(), file.getframerate()
        print(file.getnchannels(), width, rate, file.getnframes())
        raw = numpy.frombuffer(file.readframes(file.getnframes()), numpy.uint8)
    wide = numpy.zeros((len(raw) // width, 4), numpy.uint8)
    wide[:, 4 - width :] = raw.reshape(-1, width)
    ours = wide.view("<i4")[:, 0].reshape(-1, 2) / 2**31
    info = soundfile.info(name)
    print(info.channels, info.subtype, info.samplerate, info.frames)
    theirs, _ = soundfile.read(name, always_2d=True)
    print(numpy.max(numpy.abs(ours - theirs)) * 2 ** (8 * width - 1))
    mono = theirs.mean(axis=1)
    length = int(seconds * rate)
    # The pluck itself is no tone yet.
    parts = [mono[i * length + rate // 20 : (i + 1) * length - rate // 5] for i in range(count)]
    print(*(f"{frequency(part, rate):.4f}" for part in parts))


main(sys.argv[1], float(sys.argv[2]), int(sys.argv[3]))
