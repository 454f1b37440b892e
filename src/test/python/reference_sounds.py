#!/usr/bin/python3
"""Writes the reference sound files beside the audio tests, with libsndfile (by python-soundfile).

    reference_sounds.py FOLDER

Every file holds the same 257 stereo samples at 44100 Hz: sample k of channel c is the integer
((k + 1) * 7919 + c * 104729) mod 65536 - 32768, over 32768, so it is exact in 16 bits and more.
The odd number of frames leaves odd chunks where the format has any.
"""
import sys

import numpy as np
import soundfile

k = np.arange(257)
sound = np.stack([((k + 1) * 7919 + c * 104729) % 65536 - 32768 for c in (0, 1)], axis=1) / 32768.0
for name, fmt, subtype in (
    ("pcm16.wav", "WAV", "PCM_16"),
    ("pcm24.wav", "WAV", "PCM_24"),
    ("pcm32.wav", "WAV", "PCM_32"),
    ("float32.wav", "WAV", "FLOAT"),
    ("float64.wav", "WAV", "DOUBLE"),
    ("extensible24.wav", "WAVEX", "PCM_24"),
    ("extensible-float.wav", "WAVEX", "FLOAT"),
    ("pcm24.rf64", "RF64", "PCM_24"),
    ("pcm16.aiff", "AIFF", "PCM_16"),
    ("pcm24.aiff", "AIFF", "PCM_24"),
    ("float32.aifc", "AIFF", "FLOAT"),
    ("float64.aifc", "AIFF", "DOUBLE"),
    ("pcm16.flac", "FLAC", "PCM_16"),
    ("pcm24.flac", "FLAC", "PCM_24"),
):
    soundfile.write(f"{sys.argv[1]}/{name}", sound, 44100, format=fmt, subtype=subtype)
soundfile.write(f"{sys.argv[1]}/little.aifc", sound, 44100, format="AIFF", subtype="PCM_16", endian="LITTLE")
soundfile.write(f"{sys.argv[1]}/eight.wav", sound, 44100, format="WAV", subtype="PCM_U8")
soundfile.write(f"{sys.argv[1]}/compressed.wav", sound, 44100, format="WAV", subtype="IMA_ADPCM")
# A tone, which FLAC predicts instead of storing: channel c is 0.9 sin(2 pi 441 k / 44100 + c).
k = np.arange(4410)
tone = np.stack([0.9 * np.sin(2 * np.pi * 441 * k / 44100 + c) for c in (0, 1)], axis=1)
soundfile.write(f"{sys.argv[1]}/tone.flac", tone, 44100, format="FLAC", subtype="PCM_24")
