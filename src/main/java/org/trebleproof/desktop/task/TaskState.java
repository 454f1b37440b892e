package org.trebleproof.desktop.task;

/** How a task stands. The last three are final. */
public enum TaskState {
  WAITING,
  RUNNING,
  FINISHED,
  CANCELLED,
  FAILED;

  /** Whether nothing follows. */
  public boolean over() {
    return compareTo(FINISHED) >= 0;
  }

  boolean mayBecome(TaskState next) {
    return !over() && next.compareTo(this) > 0 && !(this == WAITING && next == FINISHED);
  }
}
