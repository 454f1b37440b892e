package org.trebleproof.bench.hum;

import java.util.Optional;
import org.trebleproof.quantity.Estimate;

/**
 * Levels of one state [dB], re a full-scale sine or re the strike.
 *
 * @param hum fundamental and the next three harmonics
 * @param buzz the harmonics above, up to 5 kHz
 * @param hiss noise between the lines, 20 Hz to 20 kHz
 * @param total everything, 20 Hz to 20 kHz
 * @param humWeighted the hum, A-weighted
 * @param buzzWeighted the buzz, A-weighted
 * @param hissWeighted the hiss, A-weighted
 * @param totalWeighted everything, A-weighted
 * @param bursts radio: bursts, packets or a programme, over the whole recording
 */
public record StateLevels(
    Estimate hum,
    Estimate buzz,
    Estimate hiss,
    Estimate total,
    Estimate humWeighted,
    Estimate buzzWeighted,
    Estimate hissWeighted,
    Estimate totalWeighted,
    Optional<Estimate> bursts) {

  static StateLevels of(StateReading reading, double plain, double weighted) {
    var spectrum = reading.spectrum();
    Optional<Estimate> bursts =
        reading.radio().heard()
            ? Optional.of(PowerLevel.of(reading.radio().power(), plain))
            : Optional.empty();
    return new StateLevels(
        PowerLevel.of(reading.hum(), plain),
        PowerLevel.of(reading.buzz(), plain),
        PowerLevel.of(spectrum.hiss(), plain),
        PowerLevel.of(spectrum.total(), plain),
        PowerLevel.of(
            spectrum.weightedHarmonics(1, StateReading.LAST_OF_HUM, reading.leftOut()), weighted),
        PowerLevel.of(
            spectrum.weightedHarmonics(
                StateReading.LAST_OF_HUM + 1, spectrum.harmonics(), reading.leftOut()),
            weighted),
        PowerLevel.of(spectrum.weightedHiss(), weighted),
        PowerLevel.of(spectrum.weightedTotal(), weighted),
        bursts);
  }
}
