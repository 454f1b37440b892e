package org.trebleproof.bench.job;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.Consumer;
import org.trebleproof.fixture.Calibration;
import org.trebleproof.fixture.Fixture;
import org.trebleproof.fixture.PlayedSweep;
import org.trebleproof.quantity.Finding;
import org.trebleproof.quantity.Subject;

/**
 * What was measured, with which parts, in which setups. Every name used is defined.
 *
 * @param title what the job is about
 * @param source the job file, or the sound file of a quick job
 * @param fixture how the captures were taken
 * @param mainsHz nominal mains frequency when stated [Hz]
 * @param parts by name, in file order
 * @param setups by name, in file order
 * @param captures in file order, at least one
 * @param notes what reading the job already had to say (defaults taken, stale calibration)
 * @param calibration of the recorder, if one was named; its rate is still to be held against the
 *     recordings'
 * @param plans wirings nobody has soldered yet, by name; every part they name is in the job or in
 *     the plan
 * @param heading whose guitar it is, which, and where it was measured
 */
public record Job(
    String title,
    Path source,
    Fixture fixture,
    OptionalDouble mainsHz,
    Map<String, Part> parts,
    Map<String, Setup> setups,
    List<CaptureEntry> captures,
    List<Finding> notes,
    Optional<Calibration> calibration,
    Map<String, Plan> plans,
    Heading heading) {

  /**
   * What stands at the head of a work order; texts of whoever wrote the job.
   *
   * @param customer whose guitar it is
   * @param instrument which guitar
   * @param bench where and by whom it was measured
   */
  public record Heading(
      Optional<String> customer, Optional<String> instrument, Optional<String> bench) {

    /** Nothing is said. */
    public static final Heading NONE =
        new Heading(Optional.empty(), Optional.empty(), Optional.empty());
  }

  /** A job without plans. */
  public Job(
      String title,
      Path source,
      Fixture fixture,
      OptionalDouble mainsHz,
      Map<String, Part> parts,
      Map<String, Setup> setups,
      List<CaptureEntry> captures,
      List<Finding> notes,
      Optional<Calibration> calibration) {
    this(
        title,
        source,
        fixture,
        mainsHz,
        parts,
        setups,
        captures,
        notes,
        calibration,
        Map.of(),
        Heading.NONE);
  }

  /** A job without a calibration file. */
  public Job(
      String title,
      Path source,
      Fixture fixture,
      OptionalDouble mainsHz,
      Map<String, Part> parts,
      Map<String, Setup> setups,
      List<CaptureEntry> captures,
      List<Finding> notes) {
    this(title, source, fixture, mainsHz, parts, setups, captures, notes, Optional.empty());
  }

  public Job {
    parts = Collections.unmodifiableMap(new LinkedHashMap<>(parts));
    setups = Collections.unmodifiableMap(new LinkedHashMap<>(setups));
    captures = List.copyOf(captures);
    notes = List.copyOf(notes);
    plans = Collections.unmodifiableMap(new LinkedHashMap<>(plans));
  }

  /** Every file the job reads, recordings that are still to be made among them. */
  public List<Path> files() {
    List<Path> files = new ArrayList<>(List.of(source));
    captures.stream().map(CaptureEntry::file).forEach(files::add);
    calibration.map(Calibration::file).ifPresent(files::add);
    fixture.played().map(PlayedSweep::file).ifPresent(files::add);
    fixture.played().flatMap(PlayedSweep::loopback).ifPresent(files::add);
    return files;
  }

  /** The same job under another heading. */
  public Job withHeading(Heading other) {
    return with(draft -> draft.heading = other);
  }

  /** The same job, recorded otherwise. */
  public Job withFixture(Fixture other) {
    return with(draft -> draft.fixture = other);
  }

  /** The same job with other parts. */
  public Job withParts(Map<String, Part> other) {
    return with(draft -> draft.parts = other);
  }

  /** The same job with other setups. */
  public Job withSetups(Map<String, Setup> other) {
    return with(draft -> draft.setups = other);
  }

  /** The same job with other captures. */
  public Job withCaptures(List<CaptureEntry> other) {
    return with(draft -> draft.captures = other);
  }

  /** The same job, of which reading it had other things to say. */
  public Job withNotes(List<Finding> other) {
    return with(draft -> draft.notes = other);
  }

  private Job with(Consumer<Draft> change) {
    Draft draft = new Draft(this);
    change.accept(draft);
    return draft.job();
  }

  /** A job while some of it is changed. */
  private static final class Draft {
    private final Job from;
    private Fixture fixture;
    private Map<String, Part> parts;
    private Map<String, Setup> setups;
    private List<CaptureEntry> captures;
    private List<Finding> notes;
    private Heading heading;

    Draft(Job from) {
      this.from = from;
      fixture = from.fixture;
      parts = from.parts;
      setups = from.setups;
      captures = from.captures;
      notes = from.notes;
      heading = from.heading;
    }

    Job job() {
      return new Job(
          from.title,
          from.source,
          fixture,
          from.mainsHz,
          parts,
          setups,
          captures,
          notes,
          from.calibration,
          from.plans,
          heading);
    }
  }

  /** Names of the setups that some capture belongs to, in the job's order. */
  public List<String> recorded() {
    return setups.keySet().stream().filter(name -> !unrecorded().contains(name)).toList();
  }

  /** Names of the setups that no capture belongs to. */
  public List<String> unrecorded() {
    return setups.keySet().stream()
        .filter(name -> captures.stream().noneMatch(c -> c.setup().equals(name)))
        .toList();
  }

  /** The coil of a pickup. */
  public Subject coil(String pickup) {
    long pickups = parts.values().stream().filter(p -> p.kind() == Part.Kind.PICKUP).count();
    return Subject.coil(pickup, pickups == 1);
  }

  /** Parts that a plan can name, each with a slot of its kind. */
  public Map<String, Slot> partSlots() {
    return PlanSection.knownParts(parts);
  }
}
