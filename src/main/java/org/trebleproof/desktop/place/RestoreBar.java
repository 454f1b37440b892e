package org.trebleproof.desktop.place;

import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.List;
import javafx.scene.control.Label;
import javafx.scene.layout.FlowPane;
import javafx.scene.layout.VBox;
import org.trebleproof.desktop.draft.KeptSession;
import org.trebleproof.desktop.text.Texts;
import org.trebleproof.desktop.work.Workbench;

/** Offers work that an earlier start left behind, and says what it is and from when. */
public final class RestoreBar extends VBox {

  private final Workbench bench;
  private final Label words = Ink.text("");
  private final Deque<KeptSession> offers = new ArrayDeque<>();

  /** A bar over a bench. */
  public RestoreBar(Workbench bench) {
    this.bench = bench;
    getStyleClass().add("restore");
    words.setId("restore-words");
    FlowPane buttons = new FlowPane();
    buttons.getStyleClass().add("buttons");
    var take = Ink.mainButton(Texts.of("restore.take"), this::take);
    take.setId("restore-take");
    buttons.getChildren().addAll(take, Ink.button(Texts.of("restore.aside"), this::setAside));
    getChildren().addAll(words, buttons);
    hide();
  }

  /** Offers sessions, one after the other. */
  public void offer(List<KeptSession> sessions) {
    offers.addAll(sessions);
    next();
  }

  private void next() {
    if (offers.isEmpty()) {
      hide();
      return;
    }
    KeptSession session = offers.peek();
    String when =
        DateTimeFormatter.ofPattern("d MMMM, HH:mm:ss", java.util.Locale.ENGLISH)
            .format(session.when().atZone(ZoneId.systemDefault()));
    words.setText(
        Texts.of(
            "restore.words",
            session.draft().title(),
            when,
            session.edits(),
            session.last(),
            session.draft().source()));
    setVisible(true);
    setManaged(true);
  }

  private void take() {
    bench.takeUp(offers.pop());
    offers.clear(); // the others are offered at the next start
    hide();
  }

  private void setAside() {
    bench.setAside(offers.pop());
    next();
  }

  private void hide() {
    setVisible(false);
    setManaged(false);
  }
}
