package org.trebleproof.signal.hum;

import java.util.Optional;
import org.trebleproof.signal.MeanPower;

/** A recording of silence, cut into blocks, its steady part known. */
public final class QuietTake {

  /** Shortest recording that can be judged [s]. */
  public static final double SHORTEST = 3;

  /** Share of the time that a phone's bursts have to last to be more than a string's partials. */
  private static final double LASTING = 0.3;

  /** Frequency of the mains as long as it is not known [Hz]. */
  private static final double ANY_MAINS = 50;

  /** Taking the mains out leaves less than this of its power, at the worst in step with a buzz. */
  private static final double LEFT_OF_MAINS = 3e-5;

  private static final MeanPower NOTHING = new MeanPower(0, 0);

  /** Fewer blocks than these say little about their own scatter. */
  private static final int LEAST_BLOCKS = 8;

  private final double[] samples;
  private final BlockSpectra spectra;
  private final BlockSpectra pulsation;
  private final boolean[] steady;
  private final LineSpectrum lines;
  private final Optional<Frames> comb;

  /**
   * Cuts a recording up.
   *
   * @param samples full scale 1, at least {@link #SHORTEST} long
   * @param rate sample rate [Hz]
   */
  public QuietTake(float[] samples, double rate) {
    this.samples = new double[samples.length];
    for (int i = 0; i < samples.length; i++) {
      this.samples[i] = samples[i];
    }
    spectra = BlockSpectra.of(this.samples, rate);
    pulsation = BurstSearch.pulsation(this.samples, rate);
    steady = SteadyBlocks.of(spectra);
    lines = LineSpectrum.of(this.samples, spectra, steady);
    // the frames that a phone leaves out make a fence on which other combs would seem to stand
    comb =
        FrameSearch.candidate(lines)
            .filter(c -> BurstSearch.in(spectra, pulsation, ANY_MAINS).occupancy() < LASTING);
  }

  /** How far apart two steady lines must be not to disturb each other [Hz]. */
  public double resolution() {
    return (2 * LineSpectrum.LOBE + 1) * lines.binWidth();
  }

  /** The search for the mains, past the lines of a radio's frames. */
  public MainsSearch mainsSearch() {
    return new MainsSearch(lines, comb);
  }

  /** The search for the mains where what looks like a radio's frames may be the mains itself. */
  public MainsSearch mainsSearchInAll() {
    return new MainsSearch(lines, Optional.empty());
  }

  /** Whether the only comb of lines there is has the shape of a radio's packets. */
  public boolean packetsOnly() {
    return comb.isPresent() && judged(Optional.empty()) == FrameSearch.Verdict.HEARD;
  }

  private FrameSearch.Verdict judged(Optional<Double> mains) {
    return comb.map(
            c ->
                FrameSearch.judge(
                    lines, c, mains, FramePulse.of(samples, spectra.rate(), c.rate())))
        .orElse(FrameSearch.Verdict.NONE);
  }

  /**
   * Looks for what silence does not hold.
   *
   * @param mains frequency of the mains, where one was found in this recording [Hz]
   * @param radio what is heard of radio
   */
  public Optional<ForeignSound> foreign(Optional<Double> mains, RadioSounds radio) {
    return new ForeignSearch(spectra, mains, radio).search(Beginnings.of(samples, spectra.rate()));
  }

  /**
   * Looks for radio.
   *
   * @param mains frequency of the mains, where one was found [Hz]
   * @param assumed its frequency otherwise [Hz]
   */
  public RadioSounds radio(Optional<Double> mains, double assumed) {
    double fundamental = mains.orElse(assumed);
    BurstSearch.Bursts phone = BurstSearch.in(spectra, pulsation, fundamental);
    ShortTimePower shortTime =
        ShortTimePower.of(MainsFree.of(samples, spectra.rate(), fundamental), spectra.rate());
    double least = LEFT_OF_MAINS * power();
    Optional<Packets> packets =
        PacketSearch.in(shortTime, fundamental).filter(p -> p.power().value() > least);
    Optional<MeanPower> programme =
        packets.isPresent()
            ? Optional.empty()
            : ProgrammeSearch.in(shortTime).filter(p -> p.value() > least);
    // notes and strings have partials where a phone's bursts have lines, now and then
    boolean lasting = phone.occupancy() > LASTING && shortTime.hissBetween();
    FrameSearch.Verdict verdict = lasting ? FrameSearch.Verdict.NONE : judged(mains);
    Optional<Frames> frames = comb.filter(c -> verdict == FrameSearch.Verdict.HEARD);
    Optional<Frames> unclear = comb.filter(c -> verdict == FrameSearch.Verdict.UNCLEAR);
    if (lasting || phone.found() && frames.isEmpty() && programme.isEmpty()) {
      return RadioSounds.ofPhone(phone);
    }
    if (frames.isPresent() && frames.get().clock() != FrameClock.BEACONS) {
      packets = Optional.empty();
      programme = Optional.empty();
    }
    Optional<MeanPower> loose =
        packets.map(Packets::power).isPresent() ? packets.map(Packets::power) : programme;
    MeanPower power =
        loose.or(() -> frames.map(f -> FrameSearch.power(lines, f, mains))).orElse(NOTHING);
    return new RadioSounds(phone.none(), frames, unclear, packets, programme, power);
  }

  /**
   * Takes the steady part apart. Where a phone pauses long enough, only the pauses count.
   *
   * @param fundamental frequency of the mains [Hz]
   * @param wander of the mains about it within the recording, either way [Hz]
   * @param radio radio as found
   * @param pausing whether a radio that comes and goes is heard here or in other recordings
   */
  public HumSpectrum spectrum(
      double fundamental, double wander, RadioSounds radio, boolean pausing) {
    boolean[] pauses = steady.clone();
    int count = 0;
    for (int block = 0; block < pauses.length; block++) {
      pauses[block] &= !radio.phone().blocks()[block];
      count += pauses[block] ? 1 : 0;
    }
    boolean enough = count >= LEAST_BLOCKS;
    boolean fleeting = pausing && radio.phone().occupancy() < LASTING;
    boolean over = radio.phone().found() && !enough && !fleeting;
    boolean other = radio.heard() && !radio.phone().found() || fleeting;
    return new HumSpectrum(
        spectra,
        enough ? pauses : steady,
        fundamental,
        over ? Optional.of(radio) : Optional.empty(),
        other || over ? Optional.of(lines) : Optional.empty(),
        wander,
        fleeting,
        radio.heard());
  }

  /**
   * Level of the hiss in the gaps between bursts and packets, far above the hum; comparable only
   * between recordings of one sample rate.
   */
  public double hissInGaps() {
    return GapHiss.of(samples, spectra.rate());
  }

  private double power() {
    double sum = 0;
    for (double sample : samples) {
      sum += sample * sample;
    }
    return sum / samples.length;
  }

  /** Share of the recording that is steady, 0 to 1. */
  public double steadyShare() {
    int count = 0;
    for (boolean block : steady) {
      count += block ? 1 : 0;
    }
    return (double) count / steady.length;
  }
}
