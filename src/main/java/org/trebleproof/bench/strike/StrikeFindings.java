package org.trebleproof.bench.strike;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import org.trebleproof.bench.answer.StrikeEvidence;
import org.trebleproof.bench.job.CaptureEntry;
import org.trebleproof.quantity.Finding;
import org.trebleproof.quantity.FindingCode;
import org.trebleproof.quantity.NoteName;
import org.trebleproof.quantity.RowKey;
import org.trebleproof.signal.strike.PartialSeries;

/** What a person should be told about a job of strikes. */
final class StrikeFindings {

  static final Finding NO_CIRCUIT =
      Finding.of(
          FindingCode.STRIKES_LEVEL_UNANCHORED,
          "The setups name no controls and no cable, so the overall level of the difference rests on"
              + " striking equally hard before and after.",
          "with the parts known, levels below 500 Hz would settle it to tenths of a dB",
          "Describe the pots, capacitor and cable of both setups in the job.");

  static final Finding TOO_SMALL =
      Finding.of(
          FindingCode.STRIKES_DIFFERENCE_TOO_SMALL,
          "The difference hardly stands out from its band, so the resonance rests on the markings"
              + " and on what pickups usually are: it is given as assumed, and widely.",
          "nowhere is it twice as large as its own ± bound",
          "Record more strikes of more strings, or change the load by more, such as 1 nF across the"
              + " jack.");

  /**
   * Of one recording without a clear peak.
   *
   * @param given whether a resonance is given all the same
   */
  static Finding noPeakSeen(boolean given) {
    return Finding.of(
        FindingCode.STRIKES_NO_PEAK_SEEN,
        given
            ? "A peak hardly stands out over what the strings and the pick may do themselves, so the"
                + " resonance rests on the markings and on what pickups usually are: it is given as"
                + " assumed, and widely."
            : "Circuits with a peak and circuits with none explain this one recording about as well,"
                + " so no resonance is given.",
        "the peak may be under 2 dB high, or its place is hardly narrower than what any pickup has",
        "Record the same notes once more with one thing changed, such as 1 nF across the jack.");
  }

  /** Lost strikes that a player should hear of. */
  private static final double MANY = 0.25;

  /** Two notes that moved alike may do so by chance; three hardly. */
  private static final int LEAST_OF_A_SHIFT = 3;

  /** Notes that moved within this of each other moved together [cent]. */
  private static final double ONE_SHIFT = 40;

  /** From 44.1 to 48 kHz [cent]. */
  private static final double CD_OVER_VIDEO = 1200 * Math.log(48 / 44.1) / Math.log(2);

  /** A guitar drifts by less than this between two recordings [cent]; 12 are to the semitones. */
  private static final double OF_A_RATE = 15;

  private StrikeFindings() {}

  /** About one recording. */
  static List<Finding> ofTake(StrikeTake take) {
    return seen(take).stream().map(f -> f.in(take.entry().id())).toList();
  }

  private static List<Finding> seen(StrikeTake take) {
    List<Finding> findings = new ArrayList<>();
    String name = "\"" + take.entry().id() + "\"";
    if (take.found() == 0) {
      findings.add(
          Finding.of(
              FindingCode.STRIKES_NONE,
              "No pick strike stands out in capture " + name + ".",
              String.valueOf(take.entry().file().getFileName()),
              take.elsewhere().isPresent()
                  ? "The guitar is on channel "
                      + take.elsewhere().getAsInt()
                      + ": say so (deviceChannel in the job, --device-channel without one)."
                  : "Record a dozen single plucks with a pick, each left to ring for a second or"
                      + " two."));
      return findings;
    }
    List<String> dropped = new ArrayList<>();
    count(dropped, take.clipped(), "clipped");
    count(dropped, take.doubled(), "hit twice");
    count(dropped, take.cutOff(), "cut off by the next");
    int lost = take.clipped() + take.doubled() + take.cutOff();
    if (lost > 0) {
      String next = next(take);
      if (take.strikes().isEmpty()) {
        findings.add(
            Finding.of(
                FindingCode.STRIKES_NONE_USABLE,
                "Not one of the "
                    + take.found()
                    + " strikes in capture "
                    + name
                    + " can be used: "
                    + String.join(", ", dropped)
                    + ".",
                String.valueOf(take.entry().file().getFileName()),
                next));
        return findings;
      }
      String text =
          "Of "
              + take.found()
              + " strikes in capture "
              + name
              + ", "
              + lost
              + (lost == 1 ? " was left out: " : " were left out: ")
              + String.join(", ", dropped)
              + ".";
      findings.add(
          lost > MANY * take.found()
              ? Finding.of(FindingCode.STRIKES_LEFT_OUT, text, lost + " of " + take.found(), next)
              : Finding.milder(
                  FindingCode.STRIKES_LEFT_OUT, text, lost + " of " + take.found(), next));
    }
    return findings;
  }

  /** What to do about strikes that were left out. */
  private static String next(StrikeTake take) {
    List<String> words = new ArrayList<>();
    if (take.clipped() > 0) {
      words.add("Turn the recorder's gain down, the same for every recording of the job.");
    }
    if (take.doubled() + take.cutOff() > 0) {
      words.add("Strike once and let it ring for a second or two before the next.");
    }
    return String.join(" ", words);
  }

  private static void count(List<String> words, int count, String what) {
    if (count > 0) {
      words.add(count + " " + what);
    }
  }

  /** About what was struck under each condition. */
  static List<Finding> ofNotes(StrikeNotes notes, List<CaptureEntry> entries, int fewest) {
    List<Finding> findings = new ArrayList<>();
    boolean comparing = entries.size() > 1;
    boolean enough = notes.usable().stream().allMatch(n -> n >= fewest);
    Optional<Shift> shift = comparing && enough ? shift(notes, entries) : Optional.empty();
    if (shift.isPresent()) {
      findings.add(
          Finding.of(
              FindingCode.STRIKES_NOTES_DIFFER,
              shift.get().text() + " A string's own spectrum cannot be told from the circuit's.",
              heard(notes, entries),
              shift.get().next()));
      return findings;
    }
    if (comparing && enough && notes.notes().isEmpty()) {
      findings.add(
          Finding.of(
              FindingCode.STRIKES_NOTES_DIFFER,
              "Different notes were struck in the setups, and a string's own spectrum cannot be told"
                  + " from the circuit's.",
              heard(notes, entries),
              "Strike the same strings at the same frets before and after."));
      return findings;
    }
    for (int c = 0; c < entries.size(); c++) {
      if (notes.usable().get(c) < fewest) {
        int usable = notes.usable().get(c);
        findings.add(
            Finding.of(
                FindingCode.STRIKES_TOO_FEW,
                "Only "
                    + usable
                    + (usable == 1 ? " strike" : " strikes")
                    + " of setup \""
                    + entries.get(c).setup()
                    + "\" can be used, too few to tell the circuit from the hand.",
                heard(notes, entries),
                "Record at least a dozen single notes in every setup, the same ones, each left to ring for a"
                    + " second or two."));
        continue;
      }
      if (!enough) {
        continue; // nothing can be matched with too few
      }
      if (notes.strikes(c) < fewest) {
        findings.add(
            Finding.of(
                FindingCode.STRIKES_TOO_FEW,
                "Only "
                    + notes.strikes(c)
                    + (notes.strikes(c) == 1 ? " usable strike" : " usable strikes")
                    + (comparing ? " in setup \"" : " of setup \"")
                    + entries.get(c).setup()
                    + (comparing ? "\" can be compared" : "\" can be read")
                    + ", too few to tell the circuit from the hand.",
                heard(notes, entries),
                "Record at least a dozen single notes in every setup, the same ones, each left to ring for a"
                    + " second or two."));
      }
    }
    if (enough && notes.left() > 0) {
      findings.add(
          Finding.of(
              FindingCode.STRIKES_WITHOUT_PARTNER,
              notes.left()
                  + (notes.left() == 1 ? " strike has" : " strikes have")
                  + " no match of the same note in the other setup and could not be used.",
              heard(notes, entries),
              "Strike the same strings at the same frets before and after."));
    }
    if (notes.notes().stream().anyMatch(n -> !n.pitched())) {
      findings.add(
          Finding.of(
              FindingCode.STRIKES_BROADBAND,
              "Some strikes have no single pitch (scrapes, strums) and are compared by"
                  + " third-octave bands.",
              notes.notes().stream()
                      .filter(n -> !n.pitched())
                      .mapToInt(n -> n.strikes().size())
                      .sum()
                  + " strikes",
              "Single plucked strings give a narrower band."));
    }
    return findings;
  }

  /**
   * All notes of one setup moved by one interval against another's.
   *
   * @param text what was heard
   * @param next what to do
   */
  private record Shift(String text, String next) {}

  private static Optional<Shift> shift(StrikeNotes notes, List<CaptureEntry> entries) {
    double[] first = notes.pitches().get(0);
    for (int c = 1; c < entries.size(); c++) {
      double[] other = notes.pitches().get(c);
      if (other.length != first.length || first.length < LEAST_OF_A_SHIFT) {
        continue;
      }
      double sum = 0;
      double lowest = Double.POSITIVE_INFINITY;
      double highest = Double.NEGATIVE_INFINITY;
      for (int i = 0; i < first.length; i++) {
        double cent = StrikeNotes.cents(first[i], other[i]);
        sum += cent;
        lowest = Math.min(lowest, cent);
        highest = Math.max(highest, cent);
      }
      double mean = sum / first.length;
      if (highest - lowest < ONE_SHIFT && Math.abs(mean) > StrikeNotes.SAME) {
        return Optional.of(
            new Shift(
                String.format(
                    Locale.ROOT,
                    "Every note of setup \"%s\" lies %.1f semitones %s the same note in \"%s\".",
                    entries.get(c).setup(),
                    Math.abs(mean) / 100,
                    mean > 0 ? "above" : "below",
                    entries.get(0).setup()),
                Math.abs(Math.abs(mean) - CD_OVER_VIDEO) < OF_A_RATE
                    ? "If the strings and frets were the same, one file states a wrong sample rate"
                        + " (44.1 kHz sound saved as 48 kHz, or the reverse): export it again."
                    : "Strike the same strings at the same frets in the same tuning, and with no"
                        + " capo that was not there before."));
      }
    }
    return Optional.empty();
  }

  private static String heard(StrikeNotes notes, List<CaptureEntry> entries) {
    List<String> words = new ArrayList<>();
    for (int c = 0; c < entries.size(); c++) {
      List<String> pitches = new ArrayList<>();
      for (double hz : notes.pitches().get(c)) {
        pitches.add(String.format(Locale.ROOT, "%s %.1f Hz", NoteName.of(hz), hz));
      }
      words.add(
          entries.get(c).setup()
              + ": "
              + (pitches.isEmpty() ? "no pitch" : String.join(", ", pitches)));
    }
    return String.join("; ", words);
  }

  /**
   * What is left of the band's width with eight times the strikes.
   *
   * @param share of the present width
   * @param ofSessions whether it is mostly what one session may differ from another
   */
  record Floor(double share, boolean ofSessions) {}

  private static String noneWouldDo(Floor floor) {
    return String.format(
        Locale.ROOT,
        "More strikes alone would not halve the band of the difference: eight times as many would"
            + " leave %.0f %% of its width, mostly %s.",
        100 * floor.share(),
        floor.ofSessions()
            ? "what one session of playing may differ from another"
            : "what the markings of the parts leave open");
  }

  /** About what the strikes gave. */
  static List<Finding> ofEvidence(StrikeEvidence evidence, int conditions, Floor floor) {
    List<Finding> findings = new ArrayList<>();
    if (conditions == 1) {
      findings.add(
          Finding.of(
              FindingCode.STRIKES_ONE_RECORDING,
              "One recording of strikes shows the circuit and the hand together: only resonance and"
                  + " damping are read from it, widely, and no part value and no level.",
              "what the strings put in is taken as a smooth spectrum",
              "Record the same notes once more with one thing changed: after the mod, or with a known"
                  + " capacitor across the jack."));
    }
    if (evidence.drowned() > 0) {
      findings.add(
          Finding.of(
              FindingCode.STRIKES_DROWNED,
              evidence.drowned()
                  + " levels of partials were left out because something as loud was there before"
                  + " the strike"
                  + (evidence.atMains() > 0
                      ? ", " + evidence.atMains() + " of them on mains lines."
                      : "."),
              "hum, noise or a string that still rang",
              "Damp all strings between strikes and turn away from transformers."));
    }
    if (conditions > 1) {
      findings.add(
          Finding.of(
              FindingCode.STRIKES_MORE,
              evidence.moreToHalve().isPresent()
                  ? evidence.moreToHalve().getAsInt()
                      + " more strikes in each setup would halve the band of the difference."
                  : noneWouldDo(floor),
              String.format(
                  Locale.ROOT,
                  "strikes of one note differ by %.1f dB in strength and by %.1f dB in a partial",
                  evidence.scatter().strength(),
                  evidence.scatter().partial()),
              evidence.moreToHalve().isPresent()
                  ? "Record more strikes if the band is too wide."
                  : floor.ofSessions()
                      ? "Sweep through a series resistor or an exciter coil: no hand comes into it."
                      : "Measure a part with an ohmmeter and state it, or sweep through a series"
                          + " resistor."));
    }
    return findings;
  }

  /** Where the described circuit cannot make what the strikes show. */
  static Finding partsDoNotExplain(List<RowKey> rows) {
    return Finding.of(
            FindingCode.STRIKES_PARTS_DO_NOT_EXPLAIN,
            "The parts as described do not explain what changed between the strikes, so no part and"
                + " no resonance is given; the difference stands by itself.",
            "what was heard departs from what the circuit would do by more than a decibel, smoothly over"
                + " frequency",
            "Check that the recordings are not swapped, the parts and setups of the job, and that"
                + " nothing else was changed or moved.")
        .about(rows);
  }

  /** One recording in numbers. */
  static StrikeEvidence.Capture capture(StrikeTake take, StrikeNotes notes) {
    Map<Double, List<Double>> heard = new TreeMap<>();
    int used = 0;
    for (StrikeTake.Strike strike : take.strikes()) {
      double hz = strike.string().map(PartialSeries::hz).orElse(0.0);
      for (StrikeNotes.Note note : notes.notes()) {
        boolean same =
            hz == 0 ? !note.pitched() : note.pitched() && Math.abs(Math.log(hz / note.hz())) < 0.05;
        if (same) {
          heard
              .computeIfAbsent(note.hz(), k -> new ArrayList<>())
              .add(strike.string().map(PartialSeries::inharmonicity).orElse(0.0));
          used++;
          break;
        }
      }
    }
    List<StrikeEvidence.Note> list = new ArrayList<>();
    heard.forEach(
        (hz, b) -> {
          double[] sorted = b.stream().mapToDouble(Double::doubleValue).sorted().toArray();
          list.add(new StrikeEvidence.Note(hz, sorted.length, sorted[sorted.length / 2]));
        });
    return new StrikeEvidence.Capture(
        take.entry().id(),
        take.entry().setup(),
        take.found(),
        used,
        take.clipped(),
        take.doubled(),
        take.cutOff(),
        list,
        take.sampleRate(),
        take.bits(),
        take.sha256());
  }
}
