package org.trebleproof.desktop.place.order;

import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;
import javafx.scene.control.Button;
import javafx.scene.control.ComboBox;
import javafx.scene.control.Label;
import javafx.scene.input.KeyEvent;
import javafx.scene.layout.FlowPane;
import javafx.scene.layout.HBox;
import javafx.scene.layout.VBox;
import org.trebleproof.bench.mod.listen.BlindTest;
import org.trebleproof.desktop.place.piece.Lettering;
import org.trebleproof.desktop.text.Texts;
import org.trebleproof.desktop.work.BlindSession;
import org.trebleproof.desktop.work.Listening;
import org.trebleproof.report.words.ListeningText;

/** Whether the mod is heard at all: a blind test, with its result as the terminal says it. */
public final class BlindSection extends VBox {

  private static final List<Integer> TRIALS = List.of(8, 10, 16, 20, 30, 50);
  private static final int USUAL = 16;

  private final BlindSession session;
  private final Listening listening;
  private final FlowPane beginning = new FlowPane();
  private final FlowPane hearing = new FlowPane();
  private final FlowPane answering = new FlowPane();
  private final Label question = Lettering.styled("", "strong");
  private final Label keys = Lettering.faint(Texts.of("blind.keys"));
  private final Label problem = Lettering.styled("", "mistake");
  private final Label result = Lettering.styled("", "verdict-line");
  private final Button begin;
  private final Button again = Lettering.mainButton(Texts.of("blind.hear"), () -> hear());

  /**
   * The section.
   *
   * @param writePage writes the page of a test's result
   */
  public BlindSection(
      BlindSession session, Listening listening, Consumer<Optional<BlindTest.Score>> writePage) {
    this.session = session;
    this.listening = listening;
    getStyleClass().add("section");
    ComboBox<Integer> trials = new ComboBox<>();
    trials.getItems().setAll(TRIALS);
    trials.setValue(USUAL);
    trials.setAccessibleText(Texts.of("blind.trials"));
    trials.setId("blind-trials");
    Label title = Lettering.text(Texts.of("blind.trials"));
    title.setLabelFor(trials);
    title.setWrapText(false);
    HBox number = new HBox(title, trials);
    number.getStyleClass().add("level-slider");
    begin = Lettering.button(Texts.of("blind.begin"), () -> begin(trials.getValue()));
    begin.setId("blind-begin");
    Button page =
        Lettering.button(
            Texts.of("blind.page"), () -> writePage.accept(session.scoreProperty().get()));
    beginning.getChildren().addAll(number, begin, page);
    page.disableProperty().bind(begin.disableProperty());
    hearing
        .getChildren()
        .addAll(
            again,
            Lettering.button(Texts.of("listen.before"), () -> listening.play(false)),
            Lettering.button(Texts.of("listen.after"), () -> listening.play(true)),
            Lettering.button(Texts.of("listen.stop"), listening::stop));
    Button now = Lettering.button(Texts.of("blind.is.before"), () -> session.answer(false));
    now.setId("blind-before");
    Button then = Lettering.button(Texts.of("blind.is.after"), () -> session.answer(true));
    then.setId("blind-after");
    answering
        .getChildren()
        .addAll(now, then, Lettering.button(Texts.of("blind.give-up"), session::giveUp));
    List.of(beginning, hearing, answering).forEach(row -> row.getStyleClass().add("buttons"));
    question.setId("blind-question");
    result.setId("blind-result");
    session.standingProperty().addListener((o, old, is) -> show());
    session.scoreProperty().addListener((o, old, is) -> show());
    listening.soundsProperty().addListener((o, old, is) -> show());
    listening.problemProperty().addListener((o, old, is) -> show());
    addEventHandler(KeyEvent.KEY_PRESSED, this::key);
    show();
  }

  private void begin(int trials) {
    session.begin(trials);
    again.requestFocus();
  }

  private void hear() {
    session.hear();
  }

  private void key(KeyEvent event) {
    if (session.standingProperty().get().isEmpty() || event.isShortcutDown()) {
      return;
    }
    switch (event.getCode()) {
      case X -> session.hear();
      case DIGIT1, NUMPAD1 -> listening.play(false);
      case DIGIT2, NUMPAD2 -> listening.play(true);
      case B -> session.answer(false);
      case A -> session.answer(true);
      default -> {
        return;
      }
    }
    event.consume();
  }

  private void show() {
    Optional<BlindSession.Standing> standing = session.standingProperty().get();
    Optional<BlindTest.Score> score = session.scoreProperty().get();
    begin.setDisable(listening.soundsProperty().get().isEmpty());
    getChildren().setAll(Lettering.heading(Texts.of("blind.title")));
    if (standing.isPresent()) {
      question.setText(
          Texts.of("blind.question", standing.get().number(), standing.get().trials()));
      getChildren().addAll(question, hearing, answering, keys);
      listening
          .problemProperty()
          .get()
          .ifPresent(
              why -> {
                problem.setText(why);
                getChildren().add(2, problem);
              });
      return;
    }
    getChildren().add(Lettering.text(Texts.of("blind.words")));
    score.ifPresent(
        s -> {
          result.setText(ListeningText.score(s));
          getChildren().add(result);
        });
    getChildren().add(beginning);
  }
}
