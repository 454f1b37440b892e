package org.trebleproof.quantity;

import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/**
 * Every finding there is: how grave it may be, what it withdraws, what helps, what it means, and
 * which others it follows from. The guide page of findings is made from this list.
 *
 * <p>A code never changes once released. Causes stand above what follows from them, so that nothing
 * can explain itself; of two errors of which neither follows from the other the one higher up is
 * told first.
 */
public enum FindingCode {
  // The job as it is written.
  SLIP_LIKELY(
      Topic.JOB,
      Grade.ERROR,
      Withdraws.ALL,
      Remedy.MEND,
      "One slip would explain everything: files exchanged, a part clipped on and not"
          + " stated, another lead, a lost k, n or p, a control not full up, the gain turned, the"
          + " channels swapped, a wrong sample rate. No number rests on it until you say so:"
          + " check it, then correct the job, or have it assumed (--assume-slip 1, or the button"
          + " in the window)."),
  SLIP_ASSUMED(
      Topic.JOB,
      Grade.WARNING,
      Withdraws.NOTHING,
      Remedy.MEND,
      "The numbers rest on a correction of the job that you asked for with --assume-slip. Check it at"
          + " the bench; the corrected job file says it from then on."),
  OPTION_IGNORED(
      Topic.JOB,
      Grade.NOTE,
      Withdraws.NOTHING,
      Remedy.NOTHING,
      "An option on the command line was not used, because the job file states the same thing."
          + " Change the job file, or leave the option out."),
  TOLERANCE_ASSUMED(
      Topic.JOB,
      Grade.NOTE,
      Withdraws.NOTHING,
      Remedy.NOTHING,
      "No tolerance is stated for these values, so the usual one for such parts is assumed. State it"
          + " where you know it, such as \"250k 10%\"."),
  INPUT_ASSUMED(
      Topic.JOB,
      Grade.WARNING,
      Withdraws.NOTHING,
      Remedy.MEND,
      "The recorder's input is not stated, so 1M and 80p are assumed, with wide tolerances. A wrong"
          + " input resistance does not show in the recordings: state it, or calibrate."),
  UNCALIBRATED_CHANNELS(
      Topic.JOB,
      Grade.WARNING,
      Withdraws.NOTHING,
      Remedy.MEND,
      "The recorder's two channels have not been compared, so their gains are taken as equal"
          + " within 2 %"
          + " and their delays within 2 µs. Calibrate once, and name the file in every job."),
  CALIBRATION_STALE(
      Topic.JOB,
      Grade.WARNING,
      Withdraws.NOTHING,
      Remedy.MEND,
      "The calibration is more than a year old, or dated in the future. Calibrate again."),
  CALIBRATION_MISMATCH(
      Topic.JOB,
      Grade.WARNING,
      Withdraws.NOTHING,
      Remedy.MEND,
      "The calibration was made at another sample rate than the recordings, so its channel delay may"
          + " not hold. Use one rate for both.",
      SLIP_LIKELY),
  CALIBRATION_OVERRIDDEN(
      Topic.JOB,
      Grade.NOTE,
      Withdraws.NOTHING,
      Remedy.NOTHING,
      "The job states something that its calibration file states as well; the job counts. Delete one"
          + " of the two."),
  SETUP_NOT_CAPTURED(
      Topic.JOB,
      Grade.WARNING,
      Withdraws.NOTHING,
      Remedy.MORE,
      "No recording has this setup's pickup in it, so nothing is said of the setup. Sweep that"
          + " pickup, or take the setup out."),
  SETUP_NOT_RECORDED(
      Topic.JOB,
      Grade.WARNING,
      Withdraws.NOTHING,
      Remedy.MORE,
      "The job describes this setup, but nobody recorded it: all that is said of it is predicted from"
          + " its parts and the other recordings."),

  // A recording by itself: files, clocks, what was played.
  SAME_RECORDING(
      Topic.RECORDING,
      Grade.ERROR_OR_WARNING,
      Withdraws.ALL,
      Remedy.MEND,
      "Two captures are the same recording. Where the job says that they differ, one of them is the"
          + " wrong file, and nothing is said; where not, one recording counts twice, and the"
          + " intervals come out too narrow."),
  DROPPED_SAMPLES(
      Topic.RECORDING,
      Grade.ERROR,
      Withdraws.ALL,
      Remedy.AGAIN,
      "Samples are missing or doubled. Record again with larger buffers and nothing else running."),
  CLOCK_DRIFT(
      Topic.RECORDING,
      Grade.ERROR,
      Withdraws.ALL,
      Remedy.MEND,
      "The two channels do not run on one clock. Record both through one interface, and do not"
          + " resample one of them."),
  NO_SWEEP(
      Topic.RECORDING,
      Grade.ERROR,
      Withdraws.ALL,
      Remedy.AGAIN,
      "There is no sweep on the reference channel, or not all the sweeps that were played. Check the"
          + " channel numbers, and that the sweep was playing.",
      DROPPED_SAMPLES),
  SWEEP_CUT_OFF(
      Topic.RECORDING,
      Grade.ERROR_OR_WARNING,
      Withdraws.ALL,
      Remedy.AGAIN,
      "The recording begins or ends in the middle of a sweep. An error where no whole sweep is left;"
          + " else the cut one was left out. Start recording before the first sweep and stop after"
          + " the last."),
  CLOCKS_APART(
      Topic.RECORDING,
      Grade.ERROR,
      Withdraws.ALL,
      Remedy.AGAIN,
      "Playing and recording ran at different speeds, farther apart than two clocks of the same"
          + " nominal rate can be. Set both to one sample rate."
          + " With two sweeps a lost block looks the same, so the take is repeated.",
      DROPPED_SAMPLES),
  CLOCK_UNEVEN(
      Topic.RECORDING,
      Grade.ERROR,
      Withdraws.ALL,
      Remedy.MEND,
      "With one channel: player and recorder did not run evenly, or sound was lost between them."
          + " Record with nothing else running, at the rate the sweep is played at.",
      DROPPED_SAMPLES),
  PLAYBACK_INTERRUPTED(
      Topic.RECORDING,
      Grade.ERROR,
      Withdraws.ALL,
      Remedy.AGAIN,
      "Sound was lost or held up between playing and recording. Close other programs, use one"
          + " interface for both, and record again.",
      DROPPED_SAMPLES,
      NO_SWEEP,
      SWEEP_CUT_OFF),
  SOUND_LOST(
      Topic.RECORDING,
      Grade.WARNING,
      Withdraws.NOTHING,
      Remedy.AGAIN,
      "The computer did not keep up while strikes were recorded, and some sound may be missing. Close"
          + " other programs and record again."),
  QUEUE_RAN_OUT(
      Topic.RECORDING,
      Grade.NOTE,
      Withdraws.NOTHING,
      Remedy.NOTHING,
      "The computer was late once, but no sound was lost. Close other programs before the next"
          + " recording.",
      PLAYBACK_INTERRUPTED),
  TWO_CLOCKS(
      Topic.RECORDING,
      Grade.NOTE,
      Withdraws.NOTHING,
      Remedy.NOTHING,
      "Playing and recording ran on two clocks. Both recorded channels share one, so the result"
          + " stands.",
      PLAYBACK_INTERRUPTED,
      CLOCKS_APART),
  ONE_CHANNEL(
      Topic.RECORDING,
      Grade.NOTE,
      Withdraws.NOTHING,
      Remedy.NOTHING,
      "Only one channel was recorded; latency and clock offset were found from the sweeps and taken"
          + " out. A second channel on the driven end would narrow every interval."),
  NO_LOOPBACK(
      Topic.RECORDING,
      Grade.WARNING,
      Withdraws.NOTHING,
      Remedy.MORE,
      "With one channel and no loopback recording the interface's own response is not known, which"
          + " widens every interval. Record the same sound through a lead from output to input."),

  // Levels and the recorder's own doings.
  CLIPPING(
      Topic.LEVELS,
      Grade.ERROR,
      Withdraws.ALL,
      Remedy.MEND,
      "A channel is clipped. Turn the input gain or the sweep down and record again."),
  GAIN_CONTROL(
      Topic.LEVELS,
      Grade.ERROR,
      Withdraws.ALL,
      Remedy.MEND,
      "The gain rises in the silence, as automatic gain control does. Switch off automatic gain,"
          + " compressors and limiters."),
  NOISE_SUPPRESSION(
      Topic.LEVELS,
      Grade.ERROR,
      Withdraws.ALL,
      Remedy.MEND,
      "The silence is cleaner than the sweeps, as noise suppression leaves it. Switch off noise"
          + " gates"
          + " and noise suppression."),

  // What is connected, and whether it is what the job says.
  SAME_SIGNAL_TWICE(
      Topic.WIRING,
      Grade.ERROR,
      Withdraws.ALL,
      Remedy.MEND,
      "Both channels carry the same signal. Connect the device to a channel of its own and record in"
          + " stereo."),
  LONG_TAKE(
      Topic.RECORDING,
      Grade.NOTE,
      Withdraws.NOTHING,
      Remedy.NOTHING,
      "The recording is long, so only the stretch with most of the sweeps is used. If you meant"
          + " other sweeps, cut the take and name that file."),
  NARROW_SWEEP(
      Topic.RECORDING,
      Grade.NOTE,
      Withdraws.NOTHING,
      Remedy.NOTHING,
      "The sweep leaves out part of the range from 20 Hz to 20 kHz, and nothing is measured"
          + " there. A sweep over the whole range shows the coil's resistance and the losses too."),
  CHANNELS_SWAPPED(
      Topic.WIRING,
      Grade.ERROR,
      Withdraws.ALL,
      Remedy.MEND,
      "Reference and device channel are swapped. Exchange the channel numbers, or the plugs.",
      SLIP_LIKELY),
  WRONG_FIXTURE(
      Topic.WIRING,
      Grade.ERROR,
      Withdraws.ALL,
      Remedy.MEND,
      "The curve looks like that of the other fixture: a capture through a series resistor is flat and"
          + " in phase at low frequencies, one under an exciter coil rises. Correct the kind of"
          + " fixture, or connect what the job says.",
      SLIP_LIKELY),
  NO_SIGNAL(
      Topic.WIRING,
      Grade.ERROR,
      Withdraws.ALL,
      Remedy.MEND,
      "The sweep does not arrive at the device channel: a hot wire shorted to ground, an open lead, a"
          + " broken coil, a volume control at zero, or a wrong channel.",
      SLIP_LIKELY),
  INVERTED(
      Topic.WIRING,
      Grade.WARNING_OR_NOTE,
      Withdraws.NOTHING,
      Remedy.MEND,
      "The device channel is inverted and was turned back. Under an exciter coil that means"
          + " nothing; through a series resistor hot and ground may be swapped.",
      SLIP_LIKELY),

  // Levels again: what only shows once the wiring is right.
  HUM_ABOVE_SWEEP(
      Topic.LEVELS,
      Grade.ERROR,
      Withdraws.ALL,
      Remedy.MEND,
      "Hum drowns the sweep. Turn the guitar, move it away from transformers, ground the strings, play"
          + " the sweep louder.",
      SLIP_LIKELY),
  LEVEL_TOO_LOW(
      Topic.LEVELS,
      Grade.ERROR,
      Withdraws.ALL,
      Remedy.MEND,
      "The device is too quiet to measure anything. Turn the input gain up, bring the exciter coil"
          + " closer, or use a longer sweep.",
      SLIP_LIKELY,
      HUM_ABOVE_SWEEP),
  SATURATION(
      Topic.LEVELS,
      Grade.ERROR,
      Withdraws.ALL,
      Remedy.MEND,
      "The device is overdriven. Turn the sweep down until the third harmonic vanishes.",
      CLIPPING),
  OTHER_SOUND(
      Topic.LEVELS,
      Grade.ERROR,
      Withdraws.ALL,
      Remedy.AGAIN,
      "Something else was heard during the recording. Record again in quiet, hands off the strings."),
  CRACKLE(
      Topic.LEVELS,
      Grade.ERROR_OR_WARNING,
      Withdraws.ALL,
      Remedy.AGAIN,
      "There are clicks in the recording; three or more refuse it. Look for a bad contact or a buffer"
          + " that runs dry.",
      DROPPED_SAMPLES),
  REPEATS_DISAGREE(
      Topic.LEVELS,
      Grade.ERROR_OR_WARNING,
      Withdraws.ALL,
      Remedy.MEND,
      "A later sweep differs from the first: something moved or was turned while recording. Keep coil,"
          + " controls and gains still.",
      DROPPED_SAMPLES,
      CLOCK_DRIFT,
      GAIN_CONTROL,
      NOISE_SUPPRESSION),
  HUM(
      Topic.LEVELS,
      Grade.WARNING,
      Withdraws.NOTHING,
      Remedy.MEND,
      "There is a lot of hum. It is taken out, but what is left of it widens the intervals.",
      HUM_ABOVE_SWEEP),
  DISTORTION(
      Topic.LEVELS,
      Grade.WARNING,
      Withdraws.NOTHING,
      Remedy.MEND,
      "The device distorts a little. Turn the sweep down until the third harmonic vanishes.",
      CLIPPING,
      SATURATION),
  NOISY_RANGE(
      Topic.LEVELS,
      Grade.WARNING,
      Withdraws.NOTHING,
      Remedy.MORE,
      "Part of the range is too noisy to say much. More level, a longer sweep or more repeats widen"
          + " it.",
      SLIP_LIKELY,
      HUM_ABOVE_SWEEP,
      LEVEL_TOO_LOW,
      NO_SIGNAL),
  DC(
      Topic.LEVELS,
      Grade.WARNING,
      Withdraws.NOTHING,
      Remedy.NOTHING,
      "A channel carries a constant offset. It was taken out, but it costs headroom: look at the"
          + " interface.",
      CLIPPING),

  // The fit.
  CAPTURES_DISAGREE(
      Topic.FIT,
      Grade.ERROR,
      Withdraws.ALL,
      Remedy.MEND,
      "Two captures that the job describes alike differ. A part was clipped on and not named, a"
          + " changed part was not named, files were exchanged, or something was loose.",
      SLIP_LIKELY,
      SAME_RECORDING),
  CHANNELS_LEAK(
      Topic.FIT,
      Grade.ERROR,
      Withdraws.ALL,
      Remedy.MEND,
      "The captures look like those of a plain coil with some of the reference channel leaking into"
          + " the device channel. Unplug the device and play the sweep: nothing but noise should"
          + " arrive."
          + " Then look at direct monitoring, routing and leads.",
      SLIP_LIKELY),
  LEVEL_DEPENDENT(
      Topic.FIT,
      Grade.ERROR,
      Withdraws.MODEL,
      Remedy.AGAIN,
      "The inductance grows with the level of the sweep, as a core of iron makes it, so no one coil"
          + " explains the captures. Sweep some 12 dB weaker, or add a second, weaker sweep of each"
          + " setup: from two levels the values for a weak signal follow.",
      SLIP_LIKELY,
      CAPTURES_DISAGREE,
      CHANNELS_LEAK),
  SMALL_SIGNAL(
      Topic.FIT,
      Grade.NOTE,
      Withdraws.NOTHING,
      Remedy.NOTHING,
      "Sweeps of one setup at several levels differ as a coil does whose inductance grows with level."
          + " They were led back to a very weak signal, for which the values hold.",
      SLIP_LIKELY),
  NOT_CAUSAL(
      Topic.FIT,
      Grade.ERROR,
      Withdraws.ALL,
      Remedy.MEND,
      "No coil and passive load behaves like these captures: what comes out does not follow from what"
          + " went in. Switch off every effect, gain control and noise suppression in the recorder.",
      SLIP_LIKELY,
      CAPTURES_DISAGREE,
      CHANNELS_LEAK),
  CHANNELS_CROSSTALK(
      Topic.FIT,
      Grade.WARNING,
      Withdraws.NOTHING,
      Remedy.MEND,
      "A little of the reference channel is heard in the device channel. The fit has found how much,"
          + " and the values allow for it. One bare recording alone cannot show it. Separate the two"
          + " leads, and look at direct monitoring.",
      SLIP_LIKELY),
  COIL_TEMPERATURE(
      Topic.FIT,
      Grade.NOTE,
      Withdraws.NOTHING,
      Remedy.NOTHING,
      "The coil's copper was warmer or colder in one setup than in the first, which the values"
          + " allow"
          + " for. With a thermometer reading in each setup it need not be found from the"
          + " captures.",
      SLIP_LIKELY),
  MARKING_CONTRADICTED(
      Topic.FIT,
      Grade.ERROR,
      Withdraws.ALL,
      Remedy.MEND,
      "The captures contradict a stated value. Check that value first (a lost k, n or p, another part"
          + " fitted), then which file belongs to which setup and what was clipped on. A wider"
          + " tolerance is right only where the part really is that loose. Kilohms between lug and"
          + " wiper of a volume pot say that it was not full up, picofarads across the series"
          + " resistor that the delay between the channels or something else is not as stated.",
      SLIP_LIKELY,
      CAPTURES_DISAGREE,
      CHANNELS_LEAK,
      LEVEL_DEPENDENT,
      NOT_CAUSAL),
  NO_MODEL_FITS(
      Topic.FIT,
      Grade.ERROR,
      Withdraws.MODEL,
      Remedy.MEND,
      "No coil explains the captures, or only an impossible one. Check which file belongs to which"
          + " setup and what was clipped on, then effects in the recorder, then the wiring.",
      SLIP_LIKELY,
      CAPTURES_DISAGREE,
      CHANNELS_LEAK,
      NOT_CAUSAL,
      MARKING_CONTRADICTED),
  CHANGE_IS_NO_LOAD(
      Topic.FIT,
      Grade.ERROR,
      Withdraws.PART_VALUES,
      Remedy.MEND,
      "What changed between the two setups is not the change of load that the job describes, so no"
          + " change of load is given. Check that volume and tone were full up in both, what else was"
          + " plugged in or left clipped on, and which file belongs to which setup.",
      SLIP_LIKELY,
      CAPTURES_DISAGREE,
      CHANNELS_LEAK,
      LEVEL_DEPENDENT,
      NOT_CAUSAL,
      MARKING_CONTRADICTED),
  MARKING_DOUBTFUL(
      Topic.FIT,
      Grade.ERROR,
      Withdraws.PART_VALUES,
      Remedy.MEND,
      "The captures hardly agree with a stated value. A right value is off by as much once in a"
          + " thousand times, so only the values of single parts are held back. Check that value"
          + " first.",
      SLIP_LIKELY,
      CAPTURES_DISAGREE,
      CHANNELS_LEAK,
      LEVEL_DEPENDENT,
      NOT_CAUSAL,
      MARKING_CONTRADICTED,
      NO_MODEL_FITS),
  IMPLAUSIBLE_PICKUP(
      Topic.FIT,
      Grade.ERROR,
      Withdraws.ALL,
      Remedy.MEND,
      "The pickup would have a value that no guitar pickup has, so something stated is probably wrong:"
          + " the lead or another part plugged in, the recorder's input, the series resistor.",
      SLIP_LIKELY,
      CAPTURES_DISAGREE,
      CHANNELS_LEAK,
      NOT_CAUSAL,
      MARKING_CONTRADICTED,
      NO_MODEL_FITS),
  TWIN_SOLUTION(
      Topic.FIT,
      Grade.ERROR,
      Withdraws.PART_VALUES,
      Remedy.MORE,
      "Two different pickups draw this same curve, and nothing stated rules one of them out. Clip 1 nF"
          + " across the jack and sweep again.",
      SLIP_LIKELY,
      CAPTURES_DISAGREE,
      CHANNELS_LEAK,
      NOT_CAUSAL,
      MARKING_CONTRADICTED,
      NO_MODEL_FITS,
      IMPLAUSIBLE_PICKUP),
  MODEL_DISAGREES(
      Topic.FIT,
      Grade.WARNING,
      Withdraws.NOTHING,
      Remedy.MEND,
      "What changed, worked out with a model of the coil and without one, does not agree; loads and pots"
          + " are given as wide as both. Check that volume and tone were full up in both setups and that"
          + " nothing but the stated parts changed.",
      SLIP_LIKELY,
      CAPTURES_DISAGREE,
      CHANNELS_LEAK,
      NOT_CAUSAL,
      MARKING_CONTRADICTED,
      NO_MODEL_FITS,
      IMPLAUSIBLE_PICKUP),
  MISFIT(
      Topic.FIT,
      Grade.WARNING,
      Withdraws.NOTHING,
      Remedy.AGAIN,
      "The best coil model misses the captures by a little more than their noise; the intervals are"
          + " widened for it. A second sweep shows whether it repeats.",
      SLIP_LIKELY,
      CHANNELS_LEAK,
      MARKING_CONTRADICTED,
      IMPLAUSIBLE_PICKUP),
  ONLY_THE_SUM(
      Topic.FIT,
      Grade.NOTE,
      Withdraws.NOTHING,
      Remedy.MORE,
      "The captures settle only the sum of two parts; how it divides between them rests on their"
          + " markings. Measure"
          + " one of them by itself."),

  // Pick strikes.
  STRIKES_NONE(
      Topic.STRIKES,
      Grade.ERROR,
      Withdraws.ALL,
      Remedy.AGAIN,
      "No pick strike stands out. Check whether the guitar is on another channel; record a dozen"
          + " single"
          + " plucks, each left to ring for a second or two."),
  STRIKES_NONE_USABLE(
      Topic.STRIKES,
      Grade.ERROR,
      Withdraws.ALL,
      Remedy.AGAIN,
      "Every strike is clipped, hit twice or cut off by the next. Turn the gain down; strike once and"
          + " let it ring."),
  STRIKES_NOTES_DIFFER(
      Topic.STRIKES,
      Grade.ERROR,
      Withdraws.ALL,
      Remedy.AGAIN,
      "Different notes were struck in the setups. Strike the same strings at the same frets; where all"
          + " notes moved alike, look for a capo, another tuning or a wrong sample rate.",
      STRIKES_NONE,
      STRIKES_NONE_USABLE),
  STRIKES_TOO_FEW(
      Topic.STRIKES,
      Grade.ERROR,
      Withdraws.ALL,
      Remedy.AGAIN,
      "There are too few strikes to tell the circuit from the hand. Record at least a dozen"
          + " single notes in"
          + " every setup, the same ones.",
      STRIKES_NONE,
      STRIKES_NONE_USABLE,
      STRIKES_NOTES_DIFFER),
  STRIKES_PARTS_DO_NOT_EXPLAIN(
      Topic.STRIKES,
      Grade.ERROR,
      Withdraws.MODEL,
      Remedy.MORE,
      "The parts as described do not explain what changed between the strikes. The difference stands"
          + " by itself. Check that the recordings are not exchanged, and that nothing else moved."),
  STRIKES_LEFT_OUT(
      Topic.STRIKES,
      Grade.WARNING_OR_NOTE,
      Withdraws.NOTHING,
      Remedy.AGAIN,
      "Some strikes were left out, with the reason. A warning where it is more than a quarter of them."),
  STRIKES_WITHOUT_PARTNER(
      Topic.STRIKES,
      Grade.WARNING,
      Withdraws.NOTHING,
      Remedy.AGAIN,
      "Some notes have no match in the other setup and could not be used. Strike the same strings at"
          + " the same frets before and after.",
      STRIKES_NOTES_DIFFER),
  STRIKES_NOTES_LACKING(
      Topic.STRIKES,
      Grade.WARNING,
      Withdraws.NOTHING,
      Remedy.AGAIN,
      "Said while recording: the other capture has notes that were not struck in this one."),
  STRIKES_ONE_RECORDING(
      Topic.STRIKES,
      Grade.WARNING,
      Withdraws.NOTHING,
      Remedy.MORE,
      "One recording shows the circuit and the hand together, so only resonance and damping are"
          + " read from it, with wide intervals. Record the same notes once more with one thing"
          + " changed."),
  STRIKES_NO_PEAK_SEEN(
      Topic.STRIKES,
      Grade.WARNING,
      Withdraws.NOTHING,
      Remedy.MORE,
      "No clear peak shows in this one recording; the resonance is given as assumed, or not at all."
          + " Record the same notes with 1 nF across the jack.",
      STRIKES_ONE_RECORDING),
  STRIKES_LEVEL_UNANCHORED(
      Topic.STRIKES,
      Grade.WARNING,
      Withdraws.NOTHING,
      Remedy.MORE,
      "The setups name no parts, so the overall level of the difference rests on striking equally hard"
          + " before and after. Describe pots, capacitor and lead in the job."),
  STRIKES_DIFFERENCE_TOO_SMALL(
      Topic.STRIKES,
      Grade.WARNING,
      Withdraws.NOTHING,
      Remedy.MORE,
      "The difference hardly stands out from its band, so the resonance is given as assumed. Record"
          + " more strikes, or change more."),
  STRIKES_BROADBAND(
      Topic.STRIKES,
      Grade.NOTE,
      Withdraws.NOTHING,
      Remedy.NOTHING,
      "Some strikes have no single pitch and are compared by third octaves. Single plucked strings"
          + " give a narrower band."),
  STRIKES_DROWNED(
      Topic.STRIKES,
      Grade.NOTE,
      Withdraws.NOTHING,
      Remedy.NOTHING,
      "Some partials were left out because something as loud was there before the strike: hum, noise,"
          + " or a string that still rang."),
  STRIKES_MORE(
      Topic.STRIKES,
      Grade.NOTE,
      Withdraws.NOTHING,
      Remedy.MORE,
      "How many more strikes would halve the band of the difference, or why more would not."),

  // A guitar before it is soldered.
  NO_CORE_LOSS(
      Topic.PLANS,
      Grade.WARNING,
      Withdraws.NOTHING,
      Remedy.MEND,
      "The coil is taken without core loss, which makes peaks too high. Measure the coil, or state its"
          + " loss."),
  LOW_INPUT(
      Topic.PLANS,
      Grade.WARNING,
      Withdraws.NOTHING,
      Remedy.MEND,
      "The input is below 500k, which damps any pickup. Plug into an instrument input."),
  EQUAL_COILS(
      Topic.PLANS,
      Grade.WARNING,
      Withdraws.NOTHING,
      Remedy.MORE,
      "A tapped pickup is taken as two equal coils that share no flux. Measure each coil by itself for"
          + " more."),
  UNPLUGGED(
      Topic.PLANS,
      Grade.NOTE,
      Withdraws.NOTHING,
      Remedy.NOTHING,
      "Nothing is plugged in, so no amplifier loads the guitar. State lead and input to see what an"
          + " amplifier gets."),
  ONE_STRING_SIGNAL(
      Topic.PLANS,
      Grade.NOTE,
      Withdraws.NOTHING,
      Remedy.NOTHING,
      "Every pickup is taken to hear the same string signal. They sit in different places, which"
          + " adds notches of its own."),
  UNUSUAL_INDUCTANCE(
      Topic.PLANS,
      Grade.WARNING,
      Withdraws.NOTHING,
      Remedy.MEND,
      "The inductance lies outside what guitar pickups have. Check that it is a whole guitar"
          + " pickup without shorted turns."),
  UNUSUAL_CAPACITANCE(
      Topic.PLANS,
      Grade.NOTE,
      Withdraws.NOTHING,
      Remedy.MORE,
      "The winding capacitance lies outside what is usual. A screened lead on the pickup adds to it:"
          + " measure at the coil."),

  // The hum check.
  SILENT(
      Topic.HUM,
      Grade.ERROR,
      Withdraws.RECORDING,
      Remedy.MEND,
      "The channel holds nothing at all, or too little beside it; a real input always hisses."
          + " Check which channel the guitar is on, and switch noise gates off."),
  NO_SILENCE(
      Topic.HUM,
      Grade.ERROR,
      Withdraws.RECORDING,
      Remedy.AGAIN,
      "The recording holds more than hum, hiss and radio: playing, speech, a sweep, a tone, a noise."
          + " Nothing can be said of hum from it. Stop whatever sounds, damp the strings, and record"
          + " ten seconds of nothing."),
  PARTLY_NOTHING(
      Topic.HUM,
      Grade.WARNING,
      Withdraws.NOTHING,
      Remedy.AGAIN,
      "Part of the recording holds nothing at all, as a noise gate or a cut leaves it; the longest"
          + " stretch with sound in it counts. A real input always hisses."),
  CLIPPED(
      Topic.HUM,
      Grade.ERROR,
      Withdraws.RECORDING,
      Remedy.MEND,
      "The recording of silence is overdriven. Record it with less gain, and all other states with the"
          + " same gain."),
  SHORT(
      Topic.HUM,
      Grade.WARNING,
      Withdraws.NOTHING,
      Remedy.AGAIN,
      "The recording is short, and its intervals are wider for it. Record ten seconds."),
  RATE_DIFFERS(
      Topic.HUM,
      Grade.WARNING,
      Withdraws.NOTHING,
      Remedy.AGAIN,
      "The states were recorded at different sample rates. Levels can still be compared, but something"
          + " else may differ too."),
  STRIKE_CLIPPED(
      Topic.HUM,
      Grade.WARNING,
      Withdraws.NOTHING,
      Remedy.AGAIN,
      "The strike is overdriven, so it was louder than it reads. Strike less hard, or turn the gain"
          + " down for all recordings."),
  GAIN_CHANGED(
      Topic.HUM,
      Grade.WARNING,
      Withdraws.NOTHING,
      Remedy.AGAIN,
      "The hiss moved by several dB, so the recorder's gain was not the same for this state. The"
          + " differences have it taken out. Leave the gain alone between the states."),
  GAIN_UNCERTAIN(
      Topic.HUM,
      Grade.NOTE,
      Withdraws.NOTHING,
      Remedy.AGAIN,
      "The level of everything moved; the gain may have been changed. If so, record this state again.",
      GAIN_CHANGED),
  GAIN_BETWEEN_VISITS(
      Topic.HUM,
      Grade.WARNING,
      Withdraws.NOTHING,
      Remedy.AGAIN,
      "The hiss is not the same in the two visits, so the recorder's gain may differ. Use one gain for"
          + " both."),
  NO_COMMON_STATE(
      Topic.HUM,
      Grade.WARNING,
      Withdraws.NOTHING,
      Remedy.MORE,
      "The two visits have no state in common, so they cannot be compared. Record the same states"
          + " before and after."),
  UNSTEADY(
      Topic.HUM,
      Grade.NOTE,
      Withdraws.NOTHING,
      Remedy.NOTHING,
      "Some seconds were left out, because of a sound that did not last.");

  /** Where a finding belongs in the guide. */
  public enum Topic {
    JOB("The job file"),
    RECORDING("The recording"),
    LEVELS("Levels and disturbances"),
    WIRING("What is connected"),
    FIT("What the captures say together"),
    STRIKES("Pick strikes"),
    PLANS("Before soldering"),
    HUM("The hum check");

    private final String heading;

    Topic(String heading) {
      this.heading = heading;
    }

    public String heading() {
      return heading;
    }
  }

  /** How grave a finding may be, the gravest first. */
  public enum Grade {
    ERROR(Finding.Severity.ERROR),
    ERROR_OR_WARNING(Finding.Severity.ERROR, Finding.Severity.WARNING),
    WARNING(Finding.Severity.WARNING),
    WARNING_OR_NOTE(Finding.Severity.WARNING, Finding.Severity.INFO),
    NOTE(Finding.Severity.INFO);

    private final List<Finding.Severity> severities;

    Grade(Finding.Severity... severities) {
      this.severities = List.of(severities);
    }

    /** The gravest first. */
    public List<Finding.Severity> severities() {
      return severities;
    }
  }

  /** What an error takes back. */
  public enum Withdraws {
    NOTHING("nothing"),
    RECORDING("this recording; the others count"),
    PART_VALUES("the values of single parts; the curves stand"),
    MODEL("all that rests on a coil model; where nothing stands without one, everything"),
    ALL("everything");

    private final String words;

    Withdraws(String words) {
      this.words = words;
    }

    public String words() {
      return words;
    }
  }

  /** What kind of thing helps. */
  public enum Remedy {
    /** The same once more may be free of it. */
    AGAIN,
    /** Something else recorded or measured as well would settle it. */
    MORE,
    /** Something has to be changed or corrected first. */
    MEND,
    /** Nothing needs to be done. */
    NOTHING
  }

  private final Topic topic;
  private final Grade grade;
  private final Withdraws withdraws;
  private final Remedy remedy;
  private final String guide;
  private final FindingCode[] causes;

  FindingCode(
      Topic topic,
      Grade grade,
      Withdraws withdraws,
      Remedy remedy,
      String guide,
      FindingCode... causes) {
    this.topic = topic;
    this.grade = grade;
    this.withdraws = withdraws;
    this.remedy = remedy;
    this.guide = guide;
    this.causes = causes;
  }

  /** The code as scripts and result files know it, such as {@code no-model-fits}. */
  public String key() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  /** The finding of a key; empty where there is none. */
  public static Optional<FindingCode> of(String key) {
    return Arrays.stream(values()).filter(c -> c.key().equals(key)).findFirst();
  }

  public Topic topic() {
    return topic;
  }

  public Grade grade() {
    return grade;
  }

  public Withdraws withdraws() {
    return withdraws;
  }

  public Remedy remedy() {
    return remedy;
  }

  /** What it means and what to do, for the guide. */
  public String guide() {
    return guide;
  }

  /** Whether the other may follow from this one. */
  public boolean explains(FindingCode other) {
    for (FindingCode cause : other.causes) {
      if (cause == this) {
        return true;
      }
    }
    return false;
  }
}
