package org.trebleproof.bench;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import org.trebleproof.bench.job.CaptureEntry;
import org.trebleproof.quantity.Finding;
import org.trebleproof.signal.PartialSeries;

/** What a person should be told about a job of strikes. */
final class StrikeFindings {

  static final Finding NO_CIRCUIT =
      Finding.warning(
          "strikes-level-unanchored",
          "The setups name no controls and no cable, so the overall level of the difference rests on"
              + " striking equally hard before and after.",
          "with the parts known, levels below 500 Hz would settle it to tenths of a dB",
          "Describe the pots, capacitor and cable of both setups in the job.");

  static final Finding TOO_SMALL =
      Finding.warning(
          "strikes-difference-too-small",
          "The difference hardly stands out from its band, so its shape places no resonance, and"
              + " none is given.",
          "nowhere twice as large as the half-width of its band",
          "Record more strikes of more strings, or change the load by more, such as 1 nF across the"
              + " jack.");

  static final Finding NO_PEAK =
      Finding.warning(
          "strikes-no-peak-seen",
          "From this one recording the resonance cannot be told: a peak hardly stands out over what"
              + " the strings and the pick may do themselves.",
          "what is seen does not even halve the range that any pickup has",
          "Record the same notes once more with one thing changed, such as 1 nF across the jack.");

  /** Lost strikes that a player should hear of. */
  private static final double MANY = 0.25;

  private StrikeFindings() {}

  /** About one recording. */
  static List<Finding> ofTake(StrikeTake take) {
    List<Finding> findings = new ArrayList<>();
    String name = "\"" + take.entry().id() + "\"";
    if (take.found() == 0) {
      findings.add(
          Finding.error(
              "strikes-none",
              "No pick strike stands out in capture " + name + ".",
              String.valueOf(take.entry().file().getFileName()),
              "Record a dozen single plucks with a pick, each left to ring for a second or two."));
      return findings;
    }
    List<String> dropped = new ArrayList<>();
    count(dropped, take.clipped(), "clipped");
    count(dropped, take.doubled(), "hit twice");
    count(dropped, take.cutOff(), "cut off by the next");
    int lost = take.clipped() + take.doubled() + take.cutOff();
    if (lost > 0) {
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
      String next =
          take.clipped() > 0
              ? "Turn the recorder's gain down, and strike once and let it ring."
              : "Strike once and let it ring.";
      findings.add(
          lost > MANY * take.found()
              ? Finding.warning("strikes-left-out", text, lost + " of " + take.found(), next)
              : Finding.info("strikes-left-out", text, lost + " of " + take.found(), next));
    }
    return findings;
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
    if (comparing && notes.notes().isEmpty()) {
      findings.add(
          Finding.error(
              "strikes-notes-differ",
              "Different notes were struck in the setups, and a string's own spectrum cannot be told"
                  + " from the circuit's.",
              heard(notes, entries),
              "Strike the same strings at the same frets before and after."));
      return findings;
    }
    for (int c = 0; c < entries.size(); c++) {
      if (notes.strikes(c) < fewest) {
        findings.add(
            Finding.error(
                "strikes-too-few",
                "Only "
                    + notes.strikes(c)
                    + (notes.strikes(c) == 1 ? " usable strike" : " usable strikes")
                    + (comparing ? " in setup \"" : " of setup \"")
                    + entries.get(c).setup()
                    + (comparing ? "\" can be compared" : "\" can be read")
                    + ", too few to tell the circuit from the hand.",
                heard(notes, entries),
                "Record at least a dozen strikes of the same notes in every setup."));
      }
    }
    if (notes.left() > 0) {
      findings.add(
          Finding.warning(
              "strikes-without-partner",
              notes.left()
                  + (notes.left() == 1 ? " strike has" : " strikes have")
                  + " no partner of the same note in the other setup and could not be used.",
              heard(notes, entries),
              "Strike the same strings at the same frets before and after."));
    }
    if (notes.notes().stream().anyMatch(n -> !n.pitched())) {
      findings.add(
          Finding.info(
              "strikes-broadband",
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

  private static String heard(StrikeNotes notes, List<CaptureEntry> entries) {
    List<String> words = new ArrayList<>();
    for (int c = 0; c < entries.size(); c++) {
      List<String> pitches = new ArrayList<>();
      for (double hz : notes.pitches().get(c)) {
        pitches.add(StrikeJob.hertz(hz));
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
          Finding.warning(
              "strikes-one-recording",
              "One recording of strikes shows the circuit and the hand together: only resonance and"
                  + " damping are read from it, widely, and no part value and no level.",
              "what the strings put in is taken as a smooth spectrum",
              "Record the same notes once more with one thing changed, such as a known capacitor"
                  + " across the jack."));
    }
    if (evidence.drowned() > 0) {
      findings.add(
          Finding.info(
              "strikes-drowned",
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
          Finding.info(
              "strikes-more",
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
  static Finding partsDoNotExplain(List<String> keys) {
    return Finding.error(
            "strikes-parts-do-not-explain",
            "The parts as described do not explain what changed between the strikes, so no part and"
                + " no resonance is given; the difference stands by itself.",
            "a smooth departure of more than a decibel from the circuit's own difference",
            "Check the parts and setups of the job, and that nothing else was changed or moved.")
        .about(keys);
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
