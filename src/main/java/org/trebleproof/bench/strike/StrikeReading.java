package org.trebleproof.bench.strike;

import java.util.ArrayList;
import java.util.List;
import org.trebleproof.bench.job.CaptureEntry;
import org.trebleproof.bench.job.Job;
import org.trebleproof.quantity.Finding;
import org.trebleproof.quantity.NoteName;

/**
 * What one recording of strikes holds, before another is there to compare it with.
 *
 * @param usable strikes that can be used
 * @param notes what was struck, by ascending pitch
 * @param findings what a person should be told
 */
public record StrikeReading(int usable, List<Note> notes, List<Finding> findings) {

  public StrikeReading {
    notes = List.copyOf(notes);
    findings = List.copyOf(findings);
  }

  /**
   * One note.
   *
   * @param hz its fundamental [Hz]; 0 for scrapes and strums
   * @param strikes how often
   */
  public record Note(double hz, int strikes) {

    /** The note as guitarists name it. */
    String name() {
      return hz == 0 ? "no pitch" : NoteName.of(hz);
    }
  }

  /** Reads a recording. */
  public static StrikeReading of(Job job, CaptureEntry entry) {
    StrikeTake take = StrikeTake.read(job, entry);
    return new StrikeReading(
        take.strikes().size(),
        StrikeNotes.of(List.of(List.of(take))).notes().stream()
            .map(n -> new Note(n.hz(), n.strikes().size()))
            .toList(),
        StrikeFindings.ofTake(take));
  }

  /** The notes in words, such as {@code 3 × E2, 2 × A2}. */
  public String said() {
    return notes.isEmpty()
        ? "none"
        : String.join(", ", notes.stream().map(n -> n.strikes() + " × " + n.name()).toList());
  }

  /** Names of the notes that another recording holds and this one lacks. */
  public List<String> lacking(StrikeReading other) {
    List<String> names = new ArrayList<>();
    for (Note theirs : other.notes) {
      if (notes.stream().noneMatch(mine -> same(mine, theirs))) {
        names.add(theirs.name());
      }
    }
    return names;
  }

  private static boolean same(Note a, Note b) {
    return a.hz == 0 || b.hz == 0
        ? a.hz == b.hz
        : Math.abs(StrikeNotes.cents(a.hz, b.hz)) < StrikeNotes.SAME;
  }
}
