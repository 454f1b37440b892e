package org.trebleproof.bench.job;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.UnaryOperator;
import org.trebleproof.fixture.Fixture;
import org.trebleproof.quantity.Marking;
import org.trebleproof.quantity.TradeNotation;
import org.trebleproof.quantity.Unit;

/**
 * One thing about a job said otherwise: the job as it then is, and the same in the words of its
 * file, where all else stays as it was written.
 */
public sealed interface JobEdit {

  /** The job with this said otherwise. */
  Job applied(Job job);

  /**
   * The content of its file with this said otherwise; texts, numbers, truth values, lists and maps.
   *
   * @param content is changed
   */
  void write(JobContent content);

  /** The files of two captures are exchanged. */
  record Exchanged(String one, String other) implements JobEdit {
    @Override
    public Job applied(Job job) {
      CaptureEntry a = entry(job, one);
      CaptureEntry b = entry(job, other);
      return captured(captured(job, one, c -> c.in(b.file())), other, c -> c.in(a.file()));
    }

    private static CaptureEntry entry(Job job, String id) {
      return job.captures().stream().filter(c -> c.id().equals(id)).findFirst().orElseThrow();
    }

    @Override
    public void write(JobContent content) {
      Object first = content.capture(one).get("file");
      content.capture(one).put("file", content.capture(other).get("file"));
      content.capture(other).put("file", first);
    }
  }

  /** Other parts were clipped across the jack for a capture. */
  record Across(String capture, List<String> parts) implements JobEdit {
    public Across {
      parts = List.copyOf(parts);
    }

    @Override
    public Job applied(Job job) {
      return captured(job, capture, c -> c.with(parts));
    }

    @Override
    public void write(JobContent content) {
      if (parts.isEmpty()) {
        content.capture(capture).remove("across");
      } else {
        content.capture(capture).put("across", parts);
      }
    }
  }

  /** A capture was handled otherwise. */
  record Handled(String capture, CaptureEntry.Handling handling) implements JobEdit {
    @Override
    public Job applied(Job job) {
      return captured(job, capture, c -> c.with(handling));
    }

    @Override
    public void write(JobContent content) {
      Map<String, Object> entry = content.capture(capture);
      handling.sampleRate().ifPresent(rate -> entry.put("sampleRate", rate));
      if (handling.otherGain()) {
        entry.put("otherGain", true);
      }
      if (handling.swapped()) {
        entry.put("channelsSwapped", true);
      } else {
        entry.remove("channelsSwapped");
      }
    }
  }

  /** Another part stands in a place of a setup, or none; a pot stands where it says. */
  record Placed(String setup, Slot slot, Optional<String> part, double rotation)
      implements JobEdit {
    @Override
    public Job applied(Job job) {
      Map<String, Setup> setups = new LinkedHashMap<>(job.setups());
      setups.put(setup, placed(setups.get(setup)));
      return job.withSetups(setups);
    }

    private Setup placed(Setup old) {
      return switch (slot) {
        case VOLUME -> old.withVolume(pot(old.volume()));
        case TONE -> old.withTone(pot(old.tone()));
        case CABLE -> old.withCable(part);
        default -> old.withExtras(extras(old.extras()));
      };
    }

    private Optional<Setup.PotUse> pot(Optional<Setup.PotUse> old) {
      return part.map(
          p -> new Setup.PotUse(p, rotation, old.map(Setup.PotUse::centreRatio).orElse(0.5)));
    }

    private Extras extras(Extras old) {
      Map<Slot, String> parts = new EnumMap<>(Slot.class);
      parts.putAll(old.parts());
      parts.remove(slot);
      part.ifPresent(p -> parts.put(slot, p));
      return old.withParts(parts);
    }

    @Override
    public void write(JobContent content) {
      content.setup(
          setup,
          slot.key(),
          part.map(
              p ->
                  rotation == 1
                      ? (Object) p
                      : new LinkedHashMap<>(Map.of("part", p, "rotation", rotation))));
    }
  }

  /** A part has another value. */
  record Marked(String part, Marking marking) implements JobEdit {
    @Override
    public Job applied(Job job) {
      Map<String, Part> parts = new LinkedHashMap<>(job.parts());
      Part old = parts.get(part);
      parts.put(part, new Part(part, old.kind(), Optional.of(marking), old.coil()));
      return job.withParts(parts);
    }

    @Override
    public void write(JobContent content) {
      Map<String, Object> entry = content.part(part);
      String kind = String.valueOf(entry.get("kind"));
      entry.remove("length");
      entry.put(key(kind), text(marking, kind.equals("capacitor") || kind.equals("cable")));
    }
  }

  /** There is one part more. */
  record Added(Part part) implements JobEdit {
    @Override
    public Job applied(Job job) {
      Map<String, Part> parts = new LinkedHashMap<>(job.parts());
      parts.put(part.name(), part);
      return job.withParts(parts);
    }

    @Override
    public void write(JobContent content) {
      Map<String, Object> entry = content.part(part.name());
      String kind = part.kind().name().toLowerCase(java.util.Locale.ROOT);
      entry.put("kind", kind);
      entry.put(
          key(kind),
          text(
              part.marking().orElseThrow(),
              part.kind() == Part.Kind.CAPACITOR || part.kind() == Part.Kind.CABLE));
    }
  }

  /** An ohmmeter showed something else. */
  record Read(String setup, Marking reading) implements JobEdit {
    @Override
    public Job applied(Job job) {
      Map<String, Setup> setups = new LinkedHashMap<>(job.setups());
      setups.put(setup, setups.get(setup).withDcResistance(reading));
      return job.withSetups(setups);
    }

    @Override
    public void write(JobContent content) {
      content.setup(setup, "dcResistance", Optional.of(text(reading, false)));
    }
  }

  /** The captures were taken with another fixture, or one of its values is another. */
  record Taken(Fixture fixture) implements JobEdit {
    @Override
    public Job applied(Job job) {
      return job.withFixture(fixture);
    }

    @Override
    public void write(JobContent content) {
      Map<String, Object> entry = content.fixture();
      boolean series = fixture instanceof Fixture.Series;
      entry.put("kind", series ? "series" : "exciter");
      if (fixture instanceof Fixture.Series s) {
        entry.put("seriesResistance", text(s.seriesResistance(), false));
      } else {
        entry.remove("seriesResistance");
      }
      if (fixture.played().isEmpty()) {
        entry.put("referenceChannel", (double) fixture.referenceChannel());
        entry.put("deviceChannel", (double) fixture.deviceChannel());
      }
    }
  }

  /** The recorder's input is another. */
  record Input(Fixture.InputLoad load, boolean resistance) implements JobEdit {
    @Override
    public Job applied(Job job) {
      Fixture f = job.fixture();
      return new Taken(
              f instanceof Fixture.Series s
                  ? new Fixture.Series(
                      s.seriesResistance(),
                      s.channels(),
                      s.referenceChannel(),
                      s.deviceChannel(),
                      load,
                      s.played())
                  : new Fixture.Exciter(
                      ((Fixture.Exciter) f).coilFixed(),
                      ((Fixture.Exciter) f).channels(),
                      f.referenceChannel(),
                      f.deviceChannel(),
                      load,
                      f.played()))
          .applied(job);
    }

    @Override
    public void write(JobContent content) {
      Map<String, Object> input = content.inFixture("input");
      if (resistance) {
        input.put("resistance", text(load.resistance(), false));
      } else {
        input.put("capacitance", text(load.capacitance(), true));
      }
    }
  }

  /** The channels are apart by another delay. */
  record Delayed(Fixture.ChannelMatch channels) implements JobEdit {
    @Override
    public Job applied(Job job) {
      Fixture f = job.fixture();
      return new Taken(
              f instanceof Fixture.Series s
                  ? new Fixture.Series(
                      s.seriesResistance(),
                      Optional.of(channels),
                      s.referenceChannel(),
                      s.deviceChannel(),
                      s.input(),
                      s.played())
                  : new Fixture.Exciter(
                      ((Fixture.Exciter) f).coilFixed(),
                      Optional.of(channels),
                      f.referenceChannel(),
                      f.deviceChannel(),
                      f.input(),
                      f.played()))
          .applied(job);
    }

    @Override
    public void write(JobContent content) {
      content
          .inFixture("channels")
          .put(
              "delay",
              plain(1e6 * channels.delay())
                  + "us "
                  + plain(1e6 * channels.delayHalfWidth())
                  + "us");
    }
  }

  private static Job captured(Job job, String id, UnaryOperator<CaptureEntry> change) {
    List<CaptureEntry> captures = new ArrayList<>();
    job.captures().forEach(c -> captures.add(c.id().equals(id) ? change.apply(c) : c));
    return job.withCaptures(captures);
  }

  private static String key(String kind) {
    return switch (kind) {
      case "pickup" -> "resistance";
      case "cable" -> "capacitance";
      default -> "value";
    };
  }

  private static String text(Marking marking, boolean capacitive) {
    return TradeNotation.print(marking.value(), capacitive ? Unit.FARAD : Unit.OHM, 6)
        + (marking.stated() ? " " + plain(100 * marking.tolerance()) + "%" : "");
  }

  private static String plain(double value) {
    return new BigDecimal(value).round(new MathContext(6)).stripTrailingZeros().toPlainString();
  }
}
