package org.trebleproof.desktop.place.piece;

import java.util.Optional;
import javafx.animation.PauseTransition;
import javafx.collections.ListChangeListener;
import javafx.scene.control.Button;
import javafx.scene.control.Label;
import javafx.scene.control.ProgressBar;
import javafx.scene.layout.HBox;
import javafx.util.Duration;
import org.trebleproof.desktop.task.BenchTask;
import org.trebleproof.desktop.task.TaskBoard;
import org.trebleproof.desktop.task.TaskState;
import org.trebleproof.desktop.text.Texts;

/** What takes longer than a moment: its name, how far it is, and a way to end it. */
public final class TaskStrip extends HBox {

  /** Shorter work is over before anybody has read about it [ms]. */
  private static final double MOMENT = 300;

  private final TaskBoard board;
  private final Label name = new Label();
  private final ProgressBar bar = new ProgressBar();
  private final Button cancel = new Button(Texts.of("task.cancel"));
  private Optional<BenchTask> shown = Optional.empty();

  /** A strip over a board. */
  public TaskStrip(TaskBoard board) {
    this.board = board;
    getStyleClass().add("task-strip");
    setId("tasks");
    cancel.setMinWidth(USE_PREF_SIZE);
    bar.getStyleClass().add("task-bar");
    cancel.setOnAction(e -> shown.ifPresent(BenchTask::cancel));
    name.setMinWidth(0); // a long title gives way, not the window
    getChildren().addAll(name, bar, cancel);
    setVisible(false);
    board.tasks().addListener((ListChangeListener<BenchTask>) change -> changed());
  }

  private void changed() {
    if (shown.isPresent() && !board.tasks().contains(shown.get())) {
      hide();
    }
    if (shown.isEmpty() && !board.tasks().isEmpty()) {
      BenchTask oldest = board.tasks().get(0);
      PauseTransition moment = new PauseTransition(Duration.millis(MOMENT));
      moment.setOnFinished(e -> show(oldest));
      moment.play();
    }
  }

  private void show(BenchTask task) {
    if (shown.isPresent() || task.stateProperty().get().over()) {
      changed();
      return;
    }
    shown = Optional.of(task);
    String state =
        Texts.of(
            "task.state." + task.stateProperty().get().name().toLowerCase(java.util.Locale.ROOT));
    name.setText(
        task.stateProperty().get() == TaskState.RUNNING
            ? task.title()
            : task.title() + ", " + state);
    bar.progressProperty().bind(task.progressProperty());
    bar.setAccessibleText(task.title());
    cancel.setAccessibleText(Texts.of("task.cancel.of", task.title()));
    setVisible(true);
  }

  private void hide() {
    bar.progressProperty().unbind();
    shown = Optional.empty();
    setVisible(false);
  }
}
