package org.trebleproof.desktop.draft;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

final class SessionKeeperTest {

  private static final Instant WHEN = Instant.parse("2026-03-01T10:15:30Z");

  @TempDir Path state;

  private static JobDraft draft(String title) {
    return JobDraft.read(Path.of("sample-captures/pot-swap/job.json")).withTitle(title);
  }

  @Test
  void whatWasKeptIsFoundWithWhatAndWhen() {
    try (SessionKeeper keeper = new SessionKeeper(state, "one")) {
      keeper.keep(draft("kept"), Map.of(), 3, "value of lead", WHEN);
    }
    try (SessionKeeper next = new SessionKeeper(state, "two")) {
      KeptSession found = next.leftBehind().get(0);
      assertEquals("kept", found.draft().title());
      assertEquals(draft("kept").job(), found.draft().job());
      assertEquals(3, found.edits());
      assertEquals("value of lead", found.last());
      assertEquals(WHEN, found.when());
    }
  }

  @Test
  void aRunningSessionIsNotOffered() {
    try (SessionKeeper running = new SessionKeeper(state, "one");
        SessionKeeper other = new SessionKeeper(state, "two")) {
      running.keep(draft("mine"), Map.of(), 1, "title", WHEN);
      assertEquals(List.of(), other.leftBehind());
    }
  }

  @Test
  void aSavedSessionLeavesNothing() {
    try (SessionKeeper keeper = new SessionKeeper(state, "one")) {
      keeper.keep(draft("saved"), Map.of(), 1, "title", WHEN);
      keeper.clear();
    }
    try (SessionKeeper next = new SessionKeeper(state, "two")) {
      assertEquals(List.of(), next.leftBehind());
    }
  }

  @Test
  void aSessionSetAsideIsNotOfferedAgainButStays() throws IOException {
    try (SessionKeeper keeper = new SessionKeeper(state, "one")) {
      keeper.keep(draft("aside"), Map.of(), 1, "title", WHEN);
    }
    try (SessionKeeper next = new SessionKeeper(state, "two")) {
      next.setAside(next.leftBehind().get(0));
      assertEquals(List.of(), next.leftBehind());
    }
    try (var files = Files.list(state.resolve("sessions"))) {
      assertTrue(files.anyMatch(f -> f.toString().endsWith("one.set-aside.json")));
    }
  }

  @Test
  void anotherJobDoesNotReplaceUnsavedWork() {
    try (SessionKeeper keeper = new SessionKeeper(state, "one")) {
      keeper.keep(draft("first"), Map.of(), 2, "title", WHEN);
      keeper.leave("left-1");
      keeper.keep(draft("second"), Map.of(), 1, "title", WHEN.plusSeconds(9));
      assertEquals(
          List.of("first"), keeper.leftBehind().stream().map(k -> k.draft().title()).toList());
    }
  }

  @Test
  void aFileThatIsNoneOfOursIsLeftAlone() throws IOException {
    Files.createDirectories(state.resolve("sessions"));
    Files.writeString(state.resolve("sessions/odd.session.json"), "{\"trebleproof\": 1, \"x\"");
    try (SessionKeeper keeper = new SessionKeeper(state, "one")) {
      assertEquals(List.of(), keeper.leftBehind());
    }
  }

  /** The process is killed while it keeps one edit after the other. */
  @Test
  void aKilledProcessLosesNothingThatItConfirmed() throws Exception {
    Path said = state.resolve("said.txt");
    Process process =
        new ProcessBuilder(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-cp",
                System.getProperty("java.class.path"),
                Killed.class.getName(),
                state.toString())
            .redirectOutput(said.toFile())
            .redirectError(ProcessBuilder.Redirect.DISCARD)
            .start();
    while (process.isAlive() && Files.readString(said).lines().count() < 25) {
      Thread.sleep(5);
    }
    process.destroyForcibly();
    assertTrue(process.waitFor(20, TimeUnit.SECONDS));
    try (SessionKeeper next = new SessionKeeper(state, "next")) {
      KeptSession found = next.leftBehind().get(0);
      String whole = Files.readString(said);
      String confirmed = whole.substring(0, whole.lastIndexOf('\n'));
      int last = Integer.parseInt(confirmed.substring(confirmed.lastIndexOf('\n') + 1).strip());
      assertTrue(found.edits() >= last, found.edits() + " kept, " + last + " confirmed");
      assertEquals("edit " + found.edits(), found.draft().title());
    }
  }

  /** Keeps edits without end and says so after each. */
  static final class Killed {
    private Killed() {}

    public static void main(String[] arguments) {
      try (SessionKeeper keeper = new SessionKeeper(Path.of(arguments[0]), "killed")) {
        for (int i = 1; ; i++) {
          keeper.keep(draft("edit " + i), Map.of(), i, "title", WHEN);
          System.out.println(i);
        }
      }
    }
  }

  @Test
  void recentJobsAreThoseThatAreThere() throws IOException {
    Path a = Files.writeString(state.resolve("a.json"), "{}");
    Path b = Files.writeString(state.resolve("b.json"), "{}");
    RecentJobs recent = new RecentJobs(state.resolve("state"));
    assertEquals(List.of(), recent.all());
    recent.add(a);
    recent.add(b);
    recent.add(a);
    assertEquals(List.of(a, b), recent.all());
    Files.delete(a);
    assertEquals(List.of(b), recent.all());
  }

  @Test
  void theStateLiesWhereEachSystemWantsIt() {
    Path home = Path.of("/home/ada");
    assertEquals(home.resolve(".local/state/trebleproof"), StateFolder.of(Map.of(), "Linux", home));
    assertEquals(
        Path.of("/state/trebleproof"),
        StateFolder.of(Map.of("XDG_STATE_HOME", "/state"), "Linux", home));
    assertEquals(
        home.resolve("Library/Application Support/trebleproof"),
        StateFolder.of(Map.of(), "Mac OS X", home));
    assertEquals(
        home.resolve("AppData/Local/trebleproof"), StateFolder.of(Map.of(), "Windows 11", home));
    assertEquals(
        Path.of("/elsewhere"),
        StateFolder.of(Map.of("TREBLEPROOF_STATE", "/elsewhere"), "Linux", home));
    assertEquals(
        Path.of("/mine/.local/state/trebleproof"),
        StateFolder.of(Map.of("HOME", "/mine", "XDG_STATE_HOME", "relative"), "Linux", home));
  }

  /** A window that cannot keep edits opens all the same, and says so. */
  @Test
  void withoutAPlaceForEditsItGoesOnAndSaysSo(@org.junit.jupiter.api.io.TempDir Path home)
      throws IOException {
    Path file = Files.writeString(home.resolve("file"), "in the way");
    List<String> said = new ArrayList<>();
    Path usable = StateFolder.usable(file.resolve("state"), said::add);
    new SessionKeeper(usable, "a").close();
    assertEquals(1, said.size());
    assertTrue(said.get(0).contains("is not kept"), said.get(0));
    assertEquals(home.resolve("s"), StateFolder.usable(home.resolve("s"), said::add));
    assertEquals(1, said.size());
  }
}
