package org.trebleproof.bench.slip;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.trebleproof.bench.answer.Slip;
import org.trebleproof.bench.job.CaptureEntry;
import org.trebleproof.bench.job.Job;
import org.trebleproof.bench.job.JobEdit;
import org.trebleproof.bench.job.Part;
import org.trebleproof.bench.job.Setup;
import org.trebleproof.bench.job.Slot;
import org.trebleproof.bench.model.BenchUnknown;
import org.trebleproof.bench.model.JobModel;
import org.trebleproof.fixture.Fixture;
import org.trebleproof.quantity.MarkedQuantity;
import org.trebleproof.quantity.Marking;
import org.trebleproof.quantity.PreferredNumbers;
import org.trebleproof.quantity.TradeNotation;
import org.trebleproof.quantity.TradeNotationException;
import org.trebleproof.quantity.Unit;

/** Every single slip that may have been made in a job of sweeps. */
final class Suppositions {

  /**
   * No recorder has a larger input resistance, although a buffer may [ohm]; common practice, no
   * source.
   */
  private static final double LARGEST_INPUT = 100e6;

  /** A lead may be three times as long, or a third; spread of its logarithm. */
  private static final double ANY_LEAD = 0.7;

  /**
   * No lead has less, at about 100 pF/m [F]; common practice, no source. What is found below is
   * what two plugs or the fit's own error have, where much more was stated.
   */
  private static final double SHORTEST_LEAD = 40e-12;

  private static final double MUCH_LESS = 3;

  /** What else lies on a bench: some 100p to some 10n; likewise. */
  private static final double ANY_CAPACITOR = 1.2;

  /** Series resistors that are taken: some kilohm to a megohm; likewise. */
  private static final double ANY_RESISTOR = 1.3;

  /** From where it is searched, as a factor of what is stated: one search does not reach as far. */
  private static final double[] FROM = {1, 0.15, 6};

  /** A pot anywhere on its track; spread of the logarithm of its parts' ratio. */
  private static final double ANYWHERE = 2.0;

  private static final double USUAL_CLIP = 1e-9;
  private static final double USUAL_LEAD = 450e-12;
  private static final double USUAL_RESISTOR = 100e3;

  /** From where a pot that is not full up is searched, as a rotation. */
  private static final double DOWN = 0.8;

  private static final double TONE_DOWN = 0.3;

  /** What is read off a fit is good to so much, as a 95 % interval. */
  private static final double FOUND = 0.05;

  private static final double FOUND_RESISTOR = 0.01;

  /** A value this near to a preferred one is that. */
  private static final double PREFERRED = 0.015;

  private final Job job;
  private final List<Supposition> all = new ArrayList<>();

  private Suppositions(Job job) {
    this.job = job;
  }

  /** All that a fit can tell; wrong rates apart, which the sweeps' lengths tell. */
  static List<Supposition> of(Job job) {
    Suppositions s = new Suppositions(job);
    s.filesExchanged();
    s.partNotStated();
    s.partNotThere();
    s.leads();
    s.prefixes();
    s.notFull();
    s.gainChanged();
    s.seriesResistor();
    s.delayUnit();
    s.channelsSwapped();
    s.wrongFixture();
    return s.all;
  }

  /** A capture whose header says the wrong rate, or all of them. */
  static Supposition rate(Job job, List<String> captures, double said, double rate) {
    List<JobEdit> edits = new ArrayList<>();
    for (CaptureEntry c : job.captures()) {
      if (captures.contains(c.id())) {
        edits.add(new JobEdit.Handled(c.id(), c.handling().at(rate)));
      }
    }
    String who =
        captures.size() == job.captures().size() && captures.size() > 1
            ? "the recordings were"
            : (captures.size() == 1
                    ? file(capture(job, captures.get(0)))
                    : names(captures.stream().map(c -> file(capture(job, c))).toList()))
                + (captures.size() == 1 ? " was" : " were");
    return Supposition.known(
        Slip.Kind.WRONG_RATE,
        captures,
        edits,
        String.format(
            Locale.ROOT,
            "%s recorded at %s kHz and not at the %s kHz that the file says",
            who,
            kilohertz(rate),
            kilohertz(said)),
        "at that rate");
  }

  private static String kilohertz(double rate) {
    return TradeNotation.print(rate / 1000, Unit.RATIO, 4);
  }

  private static CaptureEntry capture(Job job, String id) {
    return job.captures().stream().filter(c -> c.id().equals(id)).findFirst().orElseThrow();
  }

  private static String file(CaptureEntry c) {
    return String.valueOf(c.file().getFileName());
  }

  private void filesExchanged() {
    List<CaptureEntry> captures = job.captures();
    for (int i = 0; i < captures.size(); i++) {
      for (int k = i + 1; k < captures.size(); k++) {
        CaptureEntry a = captures.get(i);
        CaptureEntry b = captures.get(k);
        boolean alike =
            a.across().equals(b.across())
                && job.setups().get(a.setup()).pickup().equals(job.setups().get(b.setup()).pickup())
                && a.setup().equals(b.setup());
        if (!alike) {
          all.add(
              Supposition.known(
                  Slip.Kind.FILES_EXCHANGED,
                  List.of(a.id(), b.id()),
                  List.of(new JobEdit.Exchanged(a.id(), b.id())),
                  file(a) + " and " + file(b) + " are exchanged",
                  "taken the other way round"));
        }
      }
    }
  }

  private void partNotStated() {
    Set<String> clips = new LinkedHashSet<>();
    job.captures().forEach(c -> clips.addAll(c.across()));
    job.parts().values().stream()
        .filter(p -> p.kind() == Part.Kind.CAPACITOR || p.kind() == Part.Kind.RESISTOR)
        .map(Part::name)
        .filter(p -> job.setups().values().stream().noneMatch(s -> uses(s, p)))
        .forEach(clips::add);
    for (CaptureEntry c : job.captures()) {
      for (String clip : clips) {
        if (!c.across().contains(clip)) {
          all.add(
              Supposition.known(
                  Slip.Kind.PART_NOT_STATED,
                  List.of(c.id(), clip),
                  List.of(new JobEdit.Across(c.id(), with(c.across(), clip))),
                  "\""
                      + clip
                      + "\" was across the jack in "
                      + file(c)
                      + ", which the job does not say",
                  "with it"));
        }
      }
      unknownClip(c);
    }
    List<String> leads = parts(Part.Kind.CABLE);
    for (Setup s : recorded()) {
      if (s.cable().isEmpty()) {
        for (String lead : leads) {
          all.add(
              Supposition.known(
                  Slip.Kind.PART_NOT_STATED,
                  List.of(s.name(), lead),
                  List.of(new JobEdit.Placed(s.name(), Slot.CABLE, Optional.of(lead), 1)),
                  "\""
                      + lead
                      + "\" was plugged in in setup \""
                      + s.name()
                      + "\", which the job does not say",
                  "with it"));
        }
        if (leads.isEmpty()) {
          unknownLead(s);
        }
      }
    }
  }

  private boolean uses(Setup s, String part) {
    return s.toneCapacitor().filter(part::equals).isPresent()
        || s.extras().parts().containsValue(part);
  }

  private static List<String> with(List<String> list, String one) {
    List<String> more = new ArrayList<>(list);
    more.add(one);
    return more;
  }

  private static List<String> without(List<String> list, String one) {
    return list.stream().filter(p -> !p.equals(one)).toList();
  }

  private void unknownClip(CaptureEntry c) {
    String name = free("unnamed capacitor");
    all.add(
        new Supposition(
            Slip.Kind.PART_NOT_STATED,
            List.of(c.id()),
            List.of(
                added(name, Part.Kind.CAPACITOR, USUAL_CLIP, FOUND),
                new JobEdit.Across(c.id(), with(c.across(), name))),
            Map.of(name, ANY_CAPACITOR),
            fit -> {
              double value = preferred(fit.value(name));
              return new Supposition.Told(
                  capacitance(value)
                      + " was across the jack in "
                      + file(c)
                      + " that the job does not name",
                  "with it",
                  List.of(
                      added(name, Part.Kind.CAPACITOR, value, FOUND),
                      new JobEdit.Across(c.id(), with(c.across(), name))));
            }));
  }

  private void unknownLead(Setup s) {
    String name = free("lead");
    all.add(
        new Supposition(
            Slip.Kind.PART_NOT_STATED,
            List.of(s.name()),
            lead(name, s, USUAL_LEAD),
            Map.of(name, ANY_LEAD),
            fit ->
                new Supposition.Told(
                    "a lead of about "
                        + capacitance(rounded(fit.value(name)))
                        + " was plugged in in setup \""
                        + s.name()
                        + "\", which the job does not say",
                    "with it",
                    lead(name, s, rounded(fit.value(name))))));
  }

  private static List<JobEdit> lead(String name, Setup s, double value) {
    return List.of(
        added(name, Part.Kind.CABLE, value, FOUND),
        new JobEdit.Placed(s.name(), Slot.CABLE, Optional.of(name), 1));
  }

  private void partNotThere() {
    for (CaptureEntry c : job.captures()) {
      for (String clip : c.across()) {
        all.add(
            Supposition.known(
                Slip.Kind.PART_NOT_THERE,
                List.of(c.id(), clip),
                List.of(new JobEdit.Across(c.id(), without(c.across(), clip))),
                "\""
                    + clip
                    + "\" was not across the jack in "
                    + file(c)
                    + ", though the job says so",
                "without it"));
      }
    }
    for (Setup s : recorded()) {
      s.cable()
          .ifPresent(
              lead ->
                  all.add(
                      Supposition.known(
                          Slip.Kind.PART_NOT_THERE,
                          List.of(s.name(), lead),
                          unplugged(s),
                          notPluggedIn(s, lead),
                          "without it")));
      for (Slot slot : List.of(Slot.LOAD_CAPACITOR, Slot.LOAD_RESISTOR)) {
        String part = s.extras().parts().get(slot);
        if (part != null) {
          all.add(
              Supposition.known(
                  Slip.Kind.PART_NOT_THERE,
                  List.of(s.name(), part),
                  List.of(new JobEdit.Placed(s.name(), slot, Optional.empty(), 1)),
                  "\""
                      + part
                      + "\" was not connected in setup \""
                      + s.name()
                      + "\", though the job says so",
                  "without it"));
        }
      }
    }
  }

  private static List<JobEdit> unplugged(Setup s) {
    return List.of(new JobEdit.Placed(s.name(), Slot.CABLE, Optional.empty(), 1));
  }

  private static String notPluggedIn(Setup s, String lead) {
    return "\""
        + lead
        + "\" was not plugged in in setup \""
        + s.name()
        + "\", though the job says so";
  }

  /** Whether nobody would call what was found another value. */
  private static boolean same(double found, double stated) {
    return Math.abs(Math.log(found / stated)) < FOUND;
  }

  /** Whether so little was found for a lead that none was there. */
  private static boolean none(double found, double stated) {
    return found < SHORTEST_LEAD && found < stated / MUCH_LESS;
  }

  private static Supposition.Told none(Setup s, String lead) {
    return new Supposition.Told(
        notPluggedIn(s, lead),
        "without it",
        unplugged(s),
        Optional.of(new Supposition.Named(Slip.Kind.PART_NOT_THERE, List.of(s.name(), lead))));
  }

  private void leads() {
    for (String lead : parts(Part.Kind.CABLE)) {
      List<Setup> with =
          recorded().stream().filter(s -> s.cable().filter(lead::equals).isPresent()).toList();
      double stated = job.parts().get(lead).marking().orElseThrow().value();
      if (!with.isEmpty()) {
        all.add(
            new Supposition(
                Slip.Kind.LEAD,
                List.of(lead),
                List.of(),
                Map.of(lead, ANY_LEAD),
                fit -> {
                  double value = rounded(fit.value(lead));
                  if (same(value, stated)) {
                    return Supposition.Told.AS_SAID;
                  }
                  if (with.size() == 1 && none(value, stated)) {
                    return none(with.get(0), lead);
                  }
                  return new Supposition.Told(
                      "\""
                          + lead
                          + "\" has about "
                          + capacitance(value)
                          + " and not the stated "
                          + capacitance(stated)
                          + "",
                      "with that",
                      List.of(new JobEdit.Marked(lead, new Marking(value, FOUND, true))));
                }));
      }
      for (Setup s : with) {
        if (recorded().size() > 1) {
          otherLead(s, lead);
        }
      }
    }
  }

  private void otherLead(Setup s, String lead) {
    for (String other : without(parts(Part.Kind.CABLE), lead)) {
      all.add(
          Supposition.known(
              Slip.Kind.OTHER_LEAD,
              List.of(s.name()),
              List.of(new JobEdit.Placed(s.name(), Slot.CABLE, Optional.of(other), 1)),
              "\""
                  + other
                  + "\" was plugged in in setup \""
                  + s.name()
                  + "\" instead of \""
                  + lead
                  + "\"",
              "with it"));
    }
    String name = free("other lead");
    double stated = job.parts().get(lead).marking().orElseThrow().value();
    all.add(
        new Supposition(
            Slip.Kind.OTHER_LEAD,
            List.of(s.name()),
            lead(name, s, stated),
            Map.of(name, ANY_LEAD),
            fit -> {
              double value = rounded(fit.value(name));
              if (same(value, stated)) {
                return Supposition.Told.AS_SAID;
              }
              if (none(value, stated)) {
                return none(s, lead);
              }
              return new Supposition.Told(
                  "another lead was plugged in in setup \""
                      + s.name()
                      + "\", one of about "
                      + capacitance(value)
                      + "",
                  "with it",
                  lead(name, s, value));
            }));
  }

  private void prefixes() {
    for (Part part : job.parts().values()) {
      if (part.marking().isEmpty()) {
        continue;
      }
      boolean toneCapacitor =
          job.setups().values().stream()
              .anyMatch(s -> s.toneCapacitor().filter(part.name()::equals).isPresent());
      MarkedQuantity quantity =
          switch (part.kind()) {
            case PICKUP -> MarkedQuantity.PICKUP_RESISTANCE;
            case POT -> MarkedQuantity.POT;
            case RESISTOR -> MarkedQuantity.RESISTOR;
            case CAPACITOR ->
                toneCapacitor ? MarkedQuantity.TONE_CAPACITOR : MarkedQuantity.CAPACITOR;
            case CABLE -> MarkedQuantity.CABLE;
          };
      prefixes(
          part.name(),
          "\"" + part.name() + "\"",
          part.marking().get(),
          quantity,
          m -> new JobEdit.Marked(part.name(), m));
    }
    Fixture f = job.fixture();
    if (f instanceof Fixture.Series s) {
      prefixes(
          "seriesResistance",
          "the series resistor",
          s.seriesResistance(),
          MarkedQuantity.SERIES_RESISTOR,
          m -> new JobEdit.Taken(with(s, m)));
    }
    if (f.input().stated()) {
      prefixes(
          "input",
          "the recorder's input resistance",
          f.input().resistance(),
          MarkedQuantity.INPUT_RESISTANCE,
          m -> new JobEdit.Input(new Fixture.InputLoad(m, f.input().capacitance(), true), true));
      prefixes(
          "input",
          "the recorder's input capacitance",
          f.input().capacitance(),
          MarkedQuantity.INPUT_CAPACITANCE,
          m -> new JobEdit.Input(new Fixture.InputLoad(f.input().resistance(), m, true), false));
    }
    for (Setup s : recorded()) {
      s.dcResistance()
          .ifPresent(
              m ->
                  prefixes(
                      s.name(),
                      "the ohmmeter's reading in setup \"" + s.name() + "\"",
                      m,
                      MarkedQuantity.DC_RESISTANCE,
                      changed -> new JobEdit.Read(s.name(), changed)));
    }
  }

  /** Whether somebody may have meant a value. */
  private static boolean met(MarkedQuantity quantity, double value, String text) {
    try {
      quantity.checkPlausible(value, text);
    } catch (TradeNotationException notSuchAPart) {
      return false;
    }
    return quantity != MarkedQuantity.INPUT_RESISTANCE || value < LARGEST_INPUT;
  }

  private void prefixes(
      String at,
      String what,
      Marking stated,
      MarkedQuantity quantity,
      java.util.function.Function<Marking, JobEdit> edit) {
    for (double factor : new double[] {1e3, 1e-3}) {
      Marking other = new Marking(stated.value() * factor, stated.tolerance(), stated.stated());
      String text = TradeNotation.print(other.value(), quantity.unit(), 6);
      if (!met(quantity, other.value(), text)) {
        continue;
      }
      all.add(
          Supposition.known(
              Slip.Kind.PREFIX,
              List.of(at),
              List.of(edit.apply(other)),
              what
                  + " is "
                  + text
                  + " and not "
                  + TradeNotation.print(stated.value(), quantity.unit(), 6)
                  + "",
              "with that"));
    }
  }

  private void notFull() {
    for (Setup s : recorded()) {
      s.volume()
          .filter(v -> v.rotation() == 1)
          .ifPresent(v -> notFull(s, Slot.VOLUME, v.part(), DOWN));
      s.tone()
          .filter(t -> t.rotation() == 1)
          .ifPresent(t -> notFull(s, Slot.TONE, t.part(), TONE_DOWN));
    }
  }

  private void notFull(Setup s, Slot slot, String pot, double from) {
    String unknown = JobModel.wiper(pot, from);
    all.add(
        new Supposition(
            slot == Slot.VOLUME ? Slip.Kind.VOLUME_NOT_FULL : Slip.Kind.TONE_NOT_FULL,
            List.of(s.name()),
            List.of(new JobEdit.Placed(s.name(), slot, Optional.of(pot), from)),
            Map.of(unknown, ANYWHERE),
            fit -> {
              double odds = fit.value(unknown);
              double share = Math.max(0.01, Math.min(0.99, odds / (1 + odds)));
              double rotation = Math.round(100 * share) / 100.0;
              return new Supposition.Told(
                  String.format(
                      Locale.ROOT,
                      "the %s was not full up in setup \"%s\"",
                      slot == Slot.VOLUME ? "volume" : "tone",
                      s.name()),
                  String.format(
                      Locale.ROOT,
                      "with about %.0f %% of \"%s\" %s",
                      100 * share,
                      pot,
                      slot == Slot.VOLUME ? "below its wiper" : "in circuit"),
                  List.of(new JobEdit.Placed(s.name(), slot, Optional.of(pot), rotation)));
            }));
  }

  private void gainChanged() {
    boolean free = job.fixture() instanceof Fixture.Exciter e && !e.coilFixed();
    for (CaptureEntry c : job.captures()) {
      boolean shared =
          job.captures().stream()
              .anyMatch(o -> !o.id().equals(c.id()) && (!free || o.setup().equals(c.setup())));
      if (shared) {
        List<JobEdit> edits = List.of(new JobEdit.Handled(c.id(), c.handling().atOtherGain()));
        all.add(
            new Supposition(
                Slip.Kind.GAIN_CHANGED,
                List.of(c.id()),
                edits,
                Map.of(),
                fit ->
                    new Supposition.Told(
                        String.format(
                            Locale.ROOT,
                            "the gain was turned by %.1f dB for %s",
                            Math.abs(20 * Math.log10(fit.value(JobModel.otherGain(c.id())))),
                            file(c)),
                        "with its level left open",
                        edits)));
      }
    }
  }

  private void channelsSwapped() {
    Fixture f = job.fixture();
    if (f.played().isPresent()) {
      return;
    }
    all.add(
        Supposition.known(
            Slip.Kind.CHANNELS_SWAPPED,
            job.captures().stream().map(CaptureEntry::id).toList(),
            List.of(new JobEdit.Taken(swapped(f))),
            "the two channels are swapped",
            "with channel "
                + f.deviceChannel()
                + " as the reference and channel "
                + f.referenceChannel()
                + " as the device"));
    if (job.captures().size() > 1) {
      for (CaptureEntry c : job.captures()) {
        all.add(
            Supposition.known(
                Slip.Kind.CHANNELS_SWAPPED,
                List.of(c.id()),
                List.of(new JobEdit.Handled(c.id(), c.handling().turned())),
                "the two channels of " + file(c) + " are swapped",
                "taken the other way round"));
      }
    }
  }

  private static Fixture swapped(Fixture f) {
    return f instanceof Fixture.Series s
        ? new Fixture.Series(
            s.seriesResistance(),
            s.channels(),
            s.deviceChannel(),
            s.referenceChannel(),
            s.input(),
            s.played())
        : new Fixture.Exciter(
            ((Fixture.Exciter) f).coilFixed(),
            ((Fixture.Exciter) f).channels(),
            f.deviceChannel(),
            f.referenceChannel(),
            f.input(),
            f.played());
  }

  private void wrongFixture() {
    Fixture f = job.fixture();
    if (f instanceof Fixture.Series s) {
      all.add(
          Supposition.known(
              Slip.Kind.WRONG_FIXTURE,
              List.of("fixture"),
              List.of(
                  new JobEdit.Taken(
                      new Fixture.Exciter(
                          false,
                          s.channels(),
                          s.referenceChannel(),
                          s.deviceChannel(),
                          s.input(),
                          s.played()))),
              "an exciter coil was used and no series resistor",
              "taken so"));
      return;
    }
    all.add(
        new Supposition(
            Slip.Kind.WRONG_FIXTURE,
            List.of("fixture"),
            List.of(new JobEdit.Taken(series(f, USUAL_RESISTOR))),
            Map.of(BenchUnknown.SERIES_RESISTOR.key(), ANY_RESISTOR),
            fit -> {
              double value = preferred(fit.value(BenchUnknown.SERIES_RESISTOR.key()));
              return new Supposition.Told(
                  "a series resistor of about "
                      + TradeNotation.print(value, Unit.OHM)
                      + " was used and no exciter coil",
                  "taken so",
                  List.of(new JobEdit.Taken(series(f, value))));
            }));
  }

  private static Fixture.Series series(Fixture f, double resistance) {
    return new Fixture.Series(
        new Marking(resistance, FOUND, true),
        f instanceof Fixture.Exciter e ? e.channels() : Optional.empty(),
        f.referenceChannel(),
        f.deviceChannel(),
        f.input(),
        f.played());
  }

  private static Fixture.Series with(Fixture.Series s, Marking resistor) {
    return new Fixture.Series(
        resistor, s.channels(), s.referenceChannel(), s.deviceChannel(), s.input(), s.played());
  }

  private void seriesResistor() {
    if (!(job.fixture() instanceof Fixture.Series s)) {
      return;
    }
    Marking marking = s.seriesResistance();
    for (double factor : FROM) {
      Marking from = new Marking(factor * marking.value(), marking.tolerance(), true);
      all.add(seriesResistor(s, from));
    }
  }

  private static Supposition seriesResistor(Fixture.Series s, Marking from) {
    double stated = s.seriesResistance().value();
    return new Supposition(
        Slip.Kind.SERIES_RESISTOR,
        List.of("seriesResistance"),
        List.of(new JobEdit.Taken(with(s, from))),
        Map.of(BenchUnknown.SERIES_RESISTOR.key(), ANY_RESISTOR),
        fit -> {
          double value = preferred(fit.value(BenchUnknown.SERIES_RESISTOR.key()));
          if (same(value, stated)) {
            return Supposition.Told.AS_SAID;
          }
          return new Supposition.Told(
              "the series resistor has "
                  + TradeNotation.print(value, Unit.OHM)
                  + " and not the stated "
                  + TradeNotation.print(stated, Unit.OHM),
              "with that",
              List.of(new JobEdit.Taken(with(s, new Marking(value, FOUND_RESISTOR, true)))));
        });
  }

  private void delayUnit() {
    Optional<Fixture.ChannelMatch> channels =
        job.fixture() instanceof Fixture.Series s
            ? s.channels()
            : ((Fixture.Exciter) job.fixture()).channels();
    if (channels.isEmpty() || channels.get().delay() == 0) {
      return;
    }
    Fixture.ChannelMatch stated = channels.get();
    for (double factor : new double[] {1e3, 1e-3}) {
      double delay = stated.delay() * factor;
      if (Math.abs(delay) > 1e-3) {
        continue;
      }
      Fixture.ChannelMatch other =
          new Fixture.ChannelMatch(
              stated.ratio(), delay, stated.delayHalfWidth(), stated.coupling());
      all.add(
          Supposition.known(
              Slip.Kind.DELAY_UNIT,
              List.of("channels.delay"),
              List.of(new JobEdit.Delayed(other)),
              "the channels are "
                  + TradeNotation.print(delay, Unit.SECOND)
                  + " apart and not "
                  + TradeNotation.print(stated.delay(), Unit.SECOND)
                  + "",
              "with that"));
    }
  }

  private List<Setup> recorded() {
    return job.recorded().stream().map(job.setups()::get).toList();
  }

  private List<String> parts(Part.Kind kind) {
    return job.parts().values().stream()
        .filter(p -> p.kind() == kind && p.marking().isPresent())
        .map(Part::name)
        .toList();
  }

  /** A name that no part has. */
  private String free(String name) {
    String free = name;
    for (int n = 2; job.parts().containsKey(free); n++) {
      free = name + " " + n;
    }
    return free;
  }

  private static JobEdit added(String name, Part.Kind kind, double value, double tolerance) {
    return new JobEdit.Added(
        new Part(name, kind, Optional.of(new Marking(value, tolerance, true))));
  }

  /** To two digits. */
  private static double rounded(double value) {
    double step = Math.pow(10, Math.floor(Math.log10(value)) - 1);
    return Math.round(value / step) * step;
  }

  /** The preferred value near by, else two digits. */
  private static double preferred(double value) {
    double near = PreferredNumbers.E12.nearest(value);
    return Math.abs(Math.log(near / value)) < PREFERRED ? near : rounded(value);
  }

  private static String capacitance(double value) {
    return TradeNotation.print(value, Unit.FARAD);
  }

  private static String names(List<String> files) {
    return String.join(", ", files.subList(0, files.size() - 1))
        + " and "
        + files.get(files.size() - 1);
  }
}
