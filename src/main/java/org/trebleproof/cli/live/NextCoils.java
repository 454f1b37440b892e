package org.trebleproof.cli.live;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.nio.charset.Charset;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.TimeUnit;
import org.trebleproof.audio.device.SoundSystem;
import org.trebleproof.audio.device.Transport;
import org.trebleproof.bench.Stimulus;
import org.trebleproof.bench.job.Job;
import org.trebleproof.bench.job.JobReader;
import org.trebleproof.bench.live.CaptureRecorder;
import org.trebleproof.bench.live.LiveBench;
import org.trebleproof.bench.live.StoppedException;
import org.trebleproof.cli.command.ExitCode;
import org.trebleproof.cli.command.Terminal;
import org.trebleproof.cli.command.Version;
import org.trebleproof.cli.command.WrongUsage;
import org.trebleproof.cli.job.JobOptions;
import org.trebleproof.cli.shelf.CoilOptions;
import org.trebleproof.cli.shelf.ShelfOptions;
import org.trebleproof.json.JsonFile;
import org.trebleproof.quantity.Refusal;
import org.trebleproof.report.file.ResultJson;
import org.trebleproof.report.words.EveningText;
import org.trebleproof.report.words.Headline;
import org.trebleproof.shelf.evening.CoilByCoil;
import org.trebleproof.shelf.evening.CoilTask;
import org.trebleproof.shelf.evening.CoilWork;
import org.trebleproof.shelf.evening.EveningListener;
import org.trebleproof.shelf.evening.EveningRun;
import org.trebleproof.shelf.item.CoilAnswer;
import org.trebleproof.shelf.store.ShelfAddress;
import org.trebleproof.shelf.store.ShelfStore;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Model.OptionSpec;
import picocli.CommandLine.ParseResult;

/**
 * Coil after coil at the interface: a name that Enter takes, the sweep, a light, and the next one
 * may be clipped on while this one is worked out.
 */
final class NextCoils {

  private static final String NEXT = "--next";
  private static final String NAME = "--name";
  private static final String AGAIN = "--again";

  private static final List<String> OF_JOBS =
      List.of(
          "--setup",
          "--across",
          "--strikes",
          "--use",
          "--until",
          "--most",
          "--page",
          "--json",
          "--csv",
          "--spice",
          "--save");

  /** Who can hardly be given this as the name of a coil. */
  private static final String END = "q";

  private static final String ONCE_MORE = "a";
  private static final String GO_ON = "n";

  private final Terminal terminal;
  private final LiveTerminal live;
  private final BufferedReader keys;
  private final List<String> held = new ArrayList<>();
  private String asked = "";

  private NextCoils(Terminal terminal, LiveTerminal live, BufferedReader keys) {
    this.terminal = terminal;
    this.live = live;
    this.keys = keys;
  }

  static void addTo(CommandSpec spec) {
    spec.addOption(
        OptionSpec.builder(NEXT)
            .type(Boolean.class)
            .arity("0")
            .description(
                "Bare coils one after the other, without a job, each onto the shelf: Enter takes"
                    + " the name that is proposed. With --again those that are on the shelf.")
            .build());
    spec.addOption(
        ShelfOptions.text(
                NAME,
                "NAME",
                "Name on the shelf: of the first coil with --next, else of the job, which is then"
                    + " kept there.")
            .build());
    ShelfOptions.addTo(spec);
    CoilOptions.addTo(spec);
    JobOptions.addBench(spec);
  }

  static boolean wanted(ParseResult given) {
    return given.hasMatchedOption(NEXT);
  }

  /**
   * Refuses options that would be passed over in silence.
   *
   * @throws WrongUsage for one
   */
  static void check(ParseResult given) {
    if (wanted(given)) {
      for (String option : OF_JOBS) {
        if (given.hasMatchedOption(option)) {
          throw new WrongUsage(
              option + " belongs to a job file, but --next records bare coils: leave it out.");
        }
      }
      if (given.matchedPositionalValue(0, null) != null) {
        throw new WrongUsage(
            "--next records bare coils without a job file: leave the job out, or --next.");
      }
      return;
    }
    CommandSpec bench = CommandSpec.create();
    JobOptions.addBench(bench);
    for (OptionSpec option : bench.options()) {
      if (given.hasMatchedOption(option.longestName())) {
        throw new WrongUsage(
            option.longestName()
                + " is for --next: with a job file it stands there, so leave it out.");
      }
    }
    CommandSpec coils = CommandSpec.create();
    CoilOptions.addTo(coils);
    ShelfOptions.addTo(coils);
    for (OptionSpec option : coils.options()) {
      if (!given.hasMatchedOption(NAME) && given.hasMatchedOption(option.longestName())) {
        throw new WrongUsage(
            option.longestName()
                + " is for what is put on the shelf: add --name to keep the job there, or leave it"
                + " out.");
      }
    }
  }

  /**
   * Refuses to keep strikes.
   *
   * @throws WrongUsage where that is asked
   */
  static void notOfStrikes(ParseResult given) {
    if (given.hasMatchedOption(NAME)) {
      throw new WrongUsage(
          "--name: the shelf keeps sweeps, as pick strikes do not tell a coil by themselves.");
    }
  }

  /** Puts the job as it stands now on the shelf, where that is wanted. */
  static void keep(ParseResult given, Terminal terminal) {
    Optional<String> name = ShelfOptions.value(given, NAME);
    if (name.isEmpty()) {
      return;
    }
    Path job = LiveOptions.jobFile(given);
    try (ShelfStore store = ShelfStore.open(ShelfOptions.address(given))) {
      boolean there = store.names().contains(name.get());
      new EveningRun(
              store, work(), CoilOptions.said(given, there), 1, System::nanoTime, said(terminal))
          .run(
              List.of(
                  new CoilTask(
                      job,
                      name.get(),
                      !there,
                      () -> JsonFile.read(job, "job file", Refusal::new).content())));
    }
  }

  private static EveningListener said(Terminal terminal) {
    return new EveningListener() {
      @Override
      public void kept(Path file, String name, CoilAnswer answer, Standing standing) {
        terminal.say("On the shelf as \"" + name + "\".");
      }

      @Override
      public void known(Path file, String name, Standing standing) {
        terminal.say("On the shelf already, as \"" + name + "\".");
      }

      @Override
      public void unusable(Path file, String why, Standing standing) {
        throw new Refusal(why);
      }
    };
  }

  private static CoilWork work() {
    return new CoilWork(Version.text(), ResultJson::of, Headline::ofFit);
  }

  /**
   * An evening.
   *
   * @param fitting whether coils are worked out; else their recordings wait on the shelf
   */
  static int run(
      ParseResult given, Terminal terminal, SoundSystem system, InputStream keys, boolean fitting)
      throws IOException {
    check(given);
    JobOptions.checkRecordings(given);
    EveningRun.Said said = CoilOptions.said(given, given.hasMatchedOption(AGAIN));
    Job planned =
        JobReader.beforeRecording(
            Path.of("coil.wav"),
            JobOptions.bareCoilToCome(given, Path.of("coil.wav"), said.circumstances().celsius()));
    if (planned.fixture().referenceChannel() == 0) {
      throw new WrongUsage("a sweep is recorded live with two channels: name both.");
    }
    Stimulus stimulus = LiveOptions.stimulus(given);
    LiveBench bench = LiveOptions.bench(given, system, planned.fixture());
    LiveTerminal live = LiveTerminal.of(terminal, false, bench);
    Transport transport = new Transport(bench.system());
    ShelfAddress address = ShelfOptions.address(given);
    ExecutorService background = Executors.newSingleThreadExecutor(NextCoils::thread);
    NextCoils talk =
        new NextCoils(
            terminal,
            live,
            new BufferedReader(new InputStreamReader(keys, Charset.defaultCharset())));
    try (ShelfStore store = ShelfStore.open(address);
        CoilByCoil evening =
            new CoilByCoil(
                store,
                Version.text(),
                fitting ? Optional.of(work()) : Optional.empty(),
                said,
                file -> JobOptions.bareCoilToCome(given, file, said.circumstances().celsius()),
                LiveOptions.level(given),
                background,
                (name, answer) ->
                    talk.tell(EveningText.workedOut(name, answer, terminal.style())))) {
      live.caution();
      int kept =
          talk.run(
              evening,
              new CaptureRecorder(bench, transport, live),
              transport,
              stimulus,
              said.again(),
              ShelfOptions.value(given, NAME));
      background.shutdown();
      talk.waitFor(background);
      terminal.say(EveningText.ended(kept));
      return ExitCode.DONE;
    } finally {
      background.shutdownNow();
    }
  }

  private static Thread thread(Runnable work) {
    Thread thread = new Thread(work, "coil");
    thread.setDaemon(true);
    return thread;
  }

  /** Records until there are no more; how many were kept. */
  private int run(
      CoilByCoil evening,
      CaptureRecorder recorder,
      Transport transport,
      Stimulus stimulus,
      boolean again,
      Optional<String> first)
      throws IOException {
    Optional<String> proposed = first;
    Optional<CoilByCoil.Light> before = Optional.empty();
    int kept = 0;
    while (true) {
      String next = proposed.orElseGet(evening::proposal);
      proposed = Optional.empty();
      boolean repeat = before.filter(l -> !l.good()).isPresent();
      Optional<String> answer =
          ask(EveningText.ask(next, before.map(CoilByCoil.Light::name), repeat));
      if (answer.isEmpty() || answer.get().equalsIgnoreCase(END)) {
        return kept;
      }
      String word = answer.get();
      boolean more =
          before.isPresent()
              && (repeat && word.isEmpty() || !repeat && word.equalsIgnoreCase(ONCE_MORE));
      if (repeat && word.equalsIgnoreCase(GO_ON)) {
        before = Optional.empty();
        word = "";
      }
      String name = more ? before.orElseThrow().name() : word.isEmpty() ? next : word;
      try {
        CoilByCoil.Light light =
            LiveTerminal.whileStoppable(
                transport, () -> evening.take(recorder, stimulus, name, more || again));
        kept++;
        before = Optional.of(light);
        live.step(EveningText.light(light, terminal.style()));
      } catch (StoppedException e) {
        throw e;
      } catch (Refusal e) {
        live.step("Not recorded: " + e.getMessage());
        proposed = Optional.of(name);
      } finally {
        release();
      }
    }
  }

  /** Asks; what is worked out meanwhile is said above the question. Empty at the end of input. */
  private Optional<String> ask(String question) throws IOException {
    synchronized (held) {
      asked = question;
      terminal.say(question);
    }
    String line = keys.readLine();
    synchronized (held) {
      asked = "";
    }
    return Optional.ofNullable(line).map(String::strip);
  }

  /** Says what was worked out: now where a question stands, else after the recording. */
  private void tell(String line) {
    synchronized (held) {
      if (asked.isEmpty()) {
        held.add(line);
      } else {
        terminal.say(line);
        terminal.say(asked);
      }
    }
  }

  private void release() {
    synchronized (held) {
      held.forEach(terminal::say);
      held.clear();
    }
  }

  private void waitFor(ExecutorService background) {
    try {
      boolean done = background.awaitTermination(10, TimeUnit.MINUTES);
      release();
      if (!done) {
        throw new Refusal(
            "not all coils were worked out: trebleproof shelf again does it; their recordings are on"
                + " the shelf.");
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new Refusal("interrupted: the recordings are on the shelf.", e);
    }
  }
}
