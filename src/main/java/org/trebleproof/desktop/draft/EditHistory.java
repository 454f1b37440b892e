package org.trebleproof.desktop.draft;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.Optional;

/** What was edited, in order, so that every step can be taken back and taken again. */
public final class EditHistory {

  /** More steps than anybody goes back. */
  private static final int MOST = 500;

  private record Step(String words, JobDraft before, JobDraft after) {}

  private final Deque<Step> done = new ArrayDeque<>();
  private final Deque<Step> undone = new ArrayDeque<>();

  /** Remembers an edit; what was undone before is forgotten. */
  public void add(String words, JobDraft before, JobDraft after) {
    done.push(new Step(words, before, after));
    undone.clear();
    if (done.size() > MOST) {
      done.removeLast();
    }
  }

  /** What the next undo takes back. */
  public Optional<String> undoWords() {
    return Optional.ofNullable(done.peek()).map(Step::words);
  }

  /** What the next redo does again. */
  public Optional<String> redoWords() {
    return Optional.ofNullable(undone.peek()).map(Step::words);
  }

  /** The draft before the last edit. */
  public Optional<JobDraft> undo() {
    if (done.isEmpty()) {
      return Optional.empty();
    }
    Step step = done.pop();
    undone.push(step);
    return Optional.of(step.before());
  }

  /** The draft after the edit that was undone last. */
  public Optional<JobDraft> redo() {
    if (undone.isEmpty()) {
      return Optional.empty();
    }
    Step step = undone.pop();
    done.push(step);
    return Optional.of(step.after());
  }

  public void clear() {
    done.clear();
    undone.clear();
  }
}
