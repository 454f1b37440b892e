package org.trebleproof.bench.job;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;

import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.trebleproof.fixture.Fixture;
import org.trebleproof.json.JsonFile;
import org.trebleproof.quantity.Marking;

/** What is written of an edit is read back as the job that the edit makes. */
final class JobEditTest {

  private static final Path FILE = Path.of("sample-captures", "swap-at-jack", "job.json");

  private static Map<String, Object> content() {
    return JsonFile.read(FILE, "job file", JobFileException::new).content();
  }

  static Stream<JobEdit> edits() {
    Job job = JobReader.read(FILE);
    Fixture.Series s = (Fixture.Series) job.fixture();
    Fixture.ChannelMatch match = s.channels().orElseThrow();
    Marking resistor = new Marking(47e3, 0.01, true);
    return Stream.of(
        new JobEdit.Exchanged("before", "after"),
        new JobEdit.Added(
            new Part("spare lead", Part.Kind.CABLE, Optional.of(new Marking(6.2e-10, 0.05, true)))),
        new JobEdit.Handled("before", CaptureEntry.Handling.USUAL.at(44100)),
        new JobEdit.Handled("before", CaptureEntry.Handling.USUAL.atOtherGain()),
        new JobEdit.Handled("after", CaptureEntry.Handling.USUAL.turned()),
        new JobEdit.Placed("after", Slot.CABLE, Optional.empty(), 1),
        new JobEdit.Placed("after", Slot.VOLUME, Optional.of("new volume"), 0.83),
        new JobEdit.Placed("before", Slot.TONE, Optional.of("tone pot"), 0.4),
        new JobEdit.Marked("lead", new Marking(7.5e-10, 0.05, true)),
        new JobEdit.Read("before", new Marking(8950, 0.01, true)),
        new JobEdit.Taken(new Fixture.Series(resistor, s.channels(), 2, 1, s.input())),
        new JobEdit.Taken(new Fixture.Exciter(false, s.channels(), 1, 2, s.input())),
        new JobEdit.Input(
            new Fixture.InputLoad(new Marking(1e5, 0.01, true), s.input().capacitance(), true),
            true),
        new JobEdit.Input(
            new Fixture.InputLoad(s.input().resistance(), new Marking(9e-11, 0.03, true), true),
            false),
        new JobEdit.Delayed(
            new Fixture.ChannelMatch(match.ratio(), 4.2e-7, 2e-8, match.coupling())));
  }

  @ParameterizedTest
  @MethodSource("edits")
  void isReadAsItIsApplied(JobEdit edit) {
    Job applied = edit.applied(JobReader.read(FILE));
    Job read = JobReader.of(FILE, JobContent.with(content(), List.of(edit)));
    assertEquals(text(applied), text(read));
    if (!(edit instanceof JobEdit.Read)) {
      assertNotEquals(text(JobReader.read(FILE)), text(read), "the edit changes something");
    }
  }

  private static String text(Job job) {
    // Values come through decimal text, exact to a dozen digits.
    return (job.fixture() + " " + job.parts() + " " + job.setups() + " " + job.captures())
        .replaceAll("(\\.\\d{9})\\d+", "$1")
        .replaceAll("00000\\d+(?=E|,|\\])", "")
        .replaceAll("9999999\\d+", "");
  }

  @Test
  void whatExtendsASetupKeepsWhatItTookOver() {
    Map<String, Object> content = new LinkedHashMap<>(content());
    Map<String, Object> setups = new LinkedHashMap<>();
    setups.put("before", ((Map<?, ?>) content.get("setups")).get("before"));
    setups.put("after", Map.of("extends", "before", "volume", "new volume"));
    content.put("setups", setups);
    JobEdit unplugged = new JobEdit.Placed("before", Slot.CABLE, Optional.empty(), 1);
    Job read = JobReader.of(FILE, JobContent.with(content, List.of(unplugged)));
    assertEquals(Optional.empty(), read.setups().get("before").cable());
    assertEquals(Optional.of("lead"), read.setups().get("after").cable());
    JobEdit other = new JobEdit.Placed("after", Slot.CABLE, Optional.empty(), 1);
    Job inherited = JobReader.of(FILE, JobContent.with(content, List.of(other)));
    assertEquals(Optional.empty(), inherited.setups().get("after").cable());
    assertEquals(Optional.of("lead"), inherited.setups().get("before").cable());
  }

  @Test
  void theGivenContentStays() {
    Map<String, Object> content = content();
    JobContent.with(content, List.of(new JobEdit.Exchanged("before", "after")));
    assertEquals(content(), content);
  }
}
