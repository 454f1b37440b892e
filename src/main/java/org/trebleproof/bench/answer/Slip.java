package org.trebleproof.bench.answer;

import java.util.List;
import java.util.Locale;
import org.trebleproof.bench.job.Job;
import org.trebleproof.bench.job.JobEdit;

/**
 * A slip that was probably made: with it put right, the captures agree with the job.
 *
 * @param kind which kind of slip
 * @param at what it is about: captures, setups, parts or keys of the fixture, by name
 * @param what was probably done, as a clause: "a.wav and b.wav are exchanged"
 * @param so how everything agrees: "taken the other way round"
 * @param edits what of the job has to be said otherwise
 */
public record Slip(Kind kind, List<String> at, String what, String so, List<JobEdit> edits) {

  /** The slips that people make. */
  public enum Kind {
    FILES_EXCHANGED,
    PART_NOT_STATED,
    PART_NOT_THERE,
    OTHER_LEAD,
    LEAD,
    PREFIX,
    VOLUME_NOT_FULL,
    TONE_NOT_FULL,
    GAIN_CHANGED,
    CHANNELS_SWAPPED,
    WRONG_RATE,
    WRONG_FIXTURE,
    SERIES_RESISTOR,
    DELAY_UNIT;

    /** Its name in result files; never changed once released. */
    public String key() {
      return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }
  }

  public Slip {
    at = List.copyOf(at);
    edits = List.copyOf(edits);
  }

  /** Says so in one sentence. */
  public String text() {
    return "It looks as if " + what + ": " + so + ", everything agrees.";
  }

  /** The job as it is then. */
  public Job corrected(Job job) {
    Job corrected = job;
    for (JobEdit edit : edits) {
      corrected = edit.applied(corrected);
    }
    return corrected;
  }
}
