package org.trebleproof.desktop.draft;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.trebleproof.desktop.text.Texts;

/**
 * A guitar as most are wired: a volume pot, a tone pot with its capacitor, and a lead. The values
 * are common practice, no source.
 *
 * @param pot marking of both pots
 * @param capacitor marking of the tone capacitor
 * @param lead length of the lead
 */
public record GuitarTemplate(String pot, String capacitor, String lead) {

  /** With the pots that guitars with single coils usually have. */
  public static final GuitarTemplate LOWER = new GuitarTemplate("250k", "22n", "3 m");

  /** With the pots that guitars with humbuckers usually have. */
  public static final GuitarTemplate HIGHER = new GuitarTemplate("500k", "22n", "3 m");

  /** Places of a setup that it fills, each with the kind of part. */
  public static final Map<String, String> PLACES = places();

  private static Map<String, String> places() {
    Map<String, String> places = new LinkedHashMap<>();
    places.put("volume", "pot");
    places.put("tone", "pot");
    places.put("toneCapacitor", "capacitor");
    places.put("cable", "cable");
    return places;
  }

  private String value(String kind) {
    return switch (kind) {
      case "pot" -> pot;
      case "capacitor" -> capacitor;
      default -> lead;
    };
  }

  /** A job whose setups are all of this guitar; where it has no setup, one is made. */
  public JobDraft in(JobDraft job) {
    JobDraft draft = job.setups().isEmpty() ? job.withNewSetup(Texts.of("setups.before")) : job;
    for (Map.Entry<String, String> place : PLACES.entrySet()) {
      String name = Texts.of("begin.part." + place.getKey());
      boolean there = draft.parts().stream().anyMatch(p -> p.name().equals(name));
      String value = value(place.getValue());
      draft =
          there
              ? draft.withPartValue(name, value)
              : draft.withNewPart(name, place.getValue(), value);
      for (String setup : draft.setups()) {
        draft = draft.withPlaced(setup, place.getKey(), name);
      }
    }
    return homed(draft);
  }

  /** No guitar around it: the coil alone. */
  public static JobDraft bare(JobDraft job) {
    JobDraft draft = job.setups().isEmpty() ? job.withNewSetup(Texts.of("begin.bare.setup")) : job;
    for (String place : PLACES.keySet()) {
      draft = draft.withoutPart(Texts.of("begin.part." + place));
    }
    return homed(draft);
  }

  /** Whether there is a setup with nothing but a coil. */
  public static boolean isBare(JobDraft job) {
    return !job.setups().isEmpty()
        && job.setups().stream()
            .noneMatch(s -> PLACES.keySet().stream().anyMatch(p -> job.placed(s, p).isPresent()));
  }

  /** One recording and one setup belong together; of several recordings the person is asked. */
  private static JobDraft homed(JobDraft job) {
    return job.captures().size() == 1 && job.setups().size() == 1
        ? job.withCaptureSetup(job.captures().get(0).id(), job.setups().get(0))
        : job;
  }

  /** Two recordings as one before a mod and one after it, with a setup for each. */
  public static JobDraft pair(JobDraft job, String before, String after) {
    JobDraft draft = job;
    for (String setup : List.of(Texts.of("setups.before"), Texts.of("setups.after"))) {
      draft = draft.setups().contains(setup) ? draft : draft.withNewSetup(setup);
    }
    return draft
        .withCaptureSetup(before, Texts.of("setups.before"))
        .withCaptureSetup(after, Texts.of("setups.after"));
  }

  /** What is another part after the mod than before; empty where nothing is. */
  public static Optional<String> changed(JobDraft job) {
    String before = Texts.of("setups.before");
    String after = Texts.of("setups.after");
    return PLACES.keySet().stream()
        .filter(p -> !job.placed(before, p).equals(job.placed(after, p)))
        .findFirst();
  }

  /** The part that stands in a place only after the mod; without one, the places are as before. */
  public static JobDraft withChange(JobDraft job, String place) {
    String after = Texts.of("setups.after");
    JobDraft draft = job;
    for (String other : PLACES.keySet()) {
      String made = Texts.of("begin.new", Texts.of("begin.part." + other));
      if (draft.parts().stream().anyMatch(p -> p.name().equals(made))) {
        draft = draft.withoutPart(made);
        draft =
            draft.withPlaced(
                after, other, draft.placed(Texts.of("setups.before"), other).orElse(""));
      }
    }
    String fresh = Texts.of("begin.new", Texts.of("begin.part." + place));
    String kind = PLACES.get(place);
    String now = draft.placed(Texts.of("setups.before"), place).map(draft::valueOfPart).orElse("");
    return draft.withNewPart(fresh, kind, other(kind, now)).withPlaced(after, place, fresh);
  }

  /** What it is most often changed for. */
  private static String other(String kind, String now) {
    return switch (kind) {
      case "pot" -> now.equals("250k") ? "500k" : "250k";
      case "capacitor" -> now.equals("22n") ? "47n" : "22n";
      default -> now.equals("3 m") ? "6 m" : "3 m";
    };
  }
}
