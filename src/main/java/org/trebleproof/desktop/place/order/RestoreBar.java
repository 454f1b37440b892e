package org.trebleproof.desktop.place.order;

import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import javafx.scene.control.Button;
import javafx.scene.control.Label;
import javafx.scene.control.ScrollPane;
import javafx.scene.layout.FlowPane;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Priority;
import javafx.scene.layout.VBox;
import org.trebleproof.desktop.draft.KeptSession;
import org.trebleproof.desktop.place.piece.Lettering;
import org.trebleproof.desktop.text.Texts;
import org.trebleproof.desktop.work.Workbench;

/**
 * Offers work that earlier starts left behind, the latest first: what each is and from when, to go
 * on with or to set aside. What is neither is offered again at the next start.
 */
public final class RestoreBar extends VBox {

  /** More than this many are scrolled. */
  private static final int MOST = 3;

  private static final double ROW = 5.2;

  private final Workbench bench;
  private final VBox list = new VBox();
  private final ScrollPane scroll = new ScrollPane(list);
  private final List<KeptSession> offers = new ArrayList<>();

  /** A bar over a bench. */
  public RestoreBar(Workbench bench) {
    this.bench = bench;
    getStyleClass().add("restore");
    list.getStyleClass().add("list");
    scroll.setFitToWidth(true);
    scroll.setHbarPolicy(ScrollPane.ScrollBarPolicy.NEVER);
    scroll.setFocusTraversable(false);
    show();
  }

  /** Offers sessions. */
  public void offer(List<KeptSession> sessions) {
    offers.addAll(sessions);
    show();
  }

  private void show() {
    list.getChildren().clear();
    getChildren().clear();
    setVisible(!offers.isEmpty());
    setManaged(!offers.isEmpty());
    for (int i = 0; i < offers.size(); i++) {
      list.getChildren().add(row(offers.get(i), i == 0 ? "" : "-" + (i + 1)));
    }
    if (offers.size() > 1) {
      HBox head =
          new HBox(
              grown(Lettering.styled(Texts.of("restore.several", offers.size()), "strong")),
              Lettering.button(Texts.of("restore.later"), this::later));
      head.getStyleClass().add("head");
      getChildren().add(head);
    }
    if (offers.size() > MOST) {
      scroll.setContent(list);
      scroll.setStyle(
          "-fx-max-height: " + MOST * ROW + "em; -fx-pref-height: " + MOST * ROW + "em;");
      getChildren().add(scroll);
    } else {
      getChildren().add(list);
    }
  }

  private static Label grown(Label label) {
    label.setMaxWidth(Double.MAX_VALUE);
    HBox.setHgrow(label, Priority.ALWAYS);
    return label;
  }

  private VBox row(KeptSession session, String number) {
    String when =
        DateTimeFormatter.ofPattern("d MMMM, HH:mm:ss", Locale.ENGLISH)
            .format(session.when().atZone(ZoneId.systemDefault()));
    Label words =
        Lettering.text(
            Texts.of(
                "restore.words",
                session.draft().title(),
                when,
                session.edits(),
                session.last(),
                session.draft().source()));
    words.setId("restore-words" + number);
    FlowPane buttons = new FlowPane();
    buttons.getStyleClass().add("buttons");
    Button take = Lettering.mainButton(Texts.of("restore.take"), () -> take(session));
    take.setId("restore-take" + number);
    take.setAccessibleText(
        Texts.of("restore.of", Texts.of("restore.take"), session.draft().title(), when));
    Button aside = Lettering.button(Texts.of("restore.aside"), () -> setAside(session));
    aside.setId("restore-aside" + number);
    aside.setAccessibleText(
        Texts.of("restore.of", Texts.of("restore.aside"), session.draft().title(), when));
    buttons.getChildren().addAll(take, aside);
    VBox row = new VBox(words, buttons);
    row.getStyleClass().add("restore-row");
    return row;
  }

  private void take(KeptSession session) {
    bench.takeUp(session);
    offers.remove(session);
    show();
  }

  private void setAside(KeptSession session) {
    bench.setAside(session);
    offers.remove(session);
    show();
  }

  private void later() {
    offers.clear();
    show();
  }
}
