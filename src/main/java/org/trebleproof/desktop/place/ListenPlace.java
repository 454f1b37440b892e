package org.trebleproof.desktop.place;

import java.util.Optional;
import java.util.function.Consumer;
import javafx.scene.control.Button;
import javafx.scene.control.CheckBox;
import javafx.scene.control.Label;
import javafx.scene.layout.FlowPane;
import org.trebleproof.bench.mod.Rendering;
import org.trebleproof.desktop.text.Texts;
import org.trebleproof.desktop.work.Listening;
import org.trebleproof.desktop.work.Trial;

/** Hearing the next mod before it is soldered. */
public final class ListenPlace extends Place {

  private final Trial trial;
  private final Listening listening;
  private final CheckBox matched = new CheckBox(Texts.of("listen.matched"));
  private final Label state = Ink.faint("");
  private final Label source = Ink.faint("");
  private final Button before;
  private final Button after;
  private final Button make;
  private final FlowPane sounds = new FlowPane();

  /**
   * The place.
   *
   * @param writeSounds asks for a folder and writes both sounds
   * @param whatIf leads to where a mod is chosen
   */
  public ListenPlace(
      Trial trial,
      Listening listening,
      FileAsker files,
      Consumer<Rendering> writeSounds,
      Runnable whatIf) {
    super("listen-place");
    this.trial = trial;
    this.listening = listening;
    matched.setSelected(true);
    matched.setOnAction(e -> render());
    make = Ink.mainButton(Texts.of("listen.make"), this::render);
    before = Ink.button(Texts.of("listen.before"), () -> listening.play(false));
    after = Ink.button(Texts.of("listen.after"), () -> listening.play(true));
    before.setId("listen-before");
    after.setId("listen-after");
    sounds.getStyleClass().add("buttons");
    sounds
        .getChildren()
        .addAll(
            make,
            before,
            after,
            Ink.button(Texts.of("listen.stop"), listening::stop),
            Ink.button(
                Texts.of("listen.write"),
                () -> listening.soundsProperty().get().ifPresent(writeSounds)));
    FlowPane recording = new FlowPane();
    recording.getStyleClass().add("buttons");
    recording
        .getChildren()
        .addAll(
            Ink.button(
                Texts.of("listen.strike"),
                () ->
                    files.toOpen(Texts.of("listen.strike")).stream()
                        .limit(1)
                        .forEach(listening::setStrike)),
            Ink.button(Texts.of("listen.computed"), () -> listening.setStrike(null)),
            source);
    write(
        Ink.styled(Texts.of("listen.title"), "lead"),
        Ink.text(Texts.of("listen.words")),
        Ink.styled(Texts.of("listen.caution"), "caution"),
        state,
        sounds,
        matched,
        recording,
        Ink.button(Texts.of("listen.what-if"), whatIf));
    listening.soundsProperty().addListener((o, old, now) -> show());
    listening.problemProperty().addListener((o, old, now) -> show());
    listening
        .strikeProperty()
        .addListener(
            (o, old, now) -> {
              show();
              render();
            });
    trial.triedProperty().addListener((o, old, now) -> forget());
    show();
  }

  /** A changed trial makes the sounds out of date. */
  private void forget() {
    listening.stop();
    show();
  }

  private void render() {
    trial.triedProperty().get().ifPresent(t -> listening.render(t, matched.isSelected()));
  }

  private void show() {
    boolean possible = trial.triedProperty().get().isPresent();
    Optional<Rendering> made = listening.soundsProperty().get();
    make.setDisable(!possible);
    before.setDisable(made.isEmpty());
    after.setDisable(made.isEmpty());
    source.setText(
        listening
            .strikeProperty()
            .get()
            .map(f -> Texts.of("listen.through", f.getFileName()))
            .orElse(Texts.of("listen.strings")));
    state.setText(
        listening
            .problemProperty()
            .get()
            .orElseGet(
                () ->
                    made.map(
                            r ->
                                Texts.of(
                                    r.matched() ? "listen.ready.matched" : "listen.ready",
                                    String.format(
                                        java.util.Locale.ROOT,
                                        "%+.1f",
                                        r.loudnessAfter() - r.loudnessBefore())))
                        .orElse(Texts.of(possible ? "listen.not.made" : "listen.empty"))));
  }
}
