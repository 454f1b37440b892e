package org.trebleproof.desktop.place;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;
import javafx.beans.binding.Bindings;
import javafx.scene.control.Button;
import javafx.scene.control.CheckBox;
import javafx.scene.control.ComboBox;
import javafx.scene.control.Label;
import javafx.scene.layout.FlowPane;
import javafx.scene.layout.HBox;
import javafx.util.StringConverter;
import org.trebleproof.bench.mod.listen.Rendering;
import org.trebleproof.desktop.ask.FileAsker;
import org.trebleproof.desktop.place.order.BlindSection;
import org.trebleproof.desktop.place.order.Exports;
import org.trebleproof.desktop.place.piece.Lettering;
import org.trebleproof.desktop.place.piece.LevelSlider;
import org.trebleproof.desktop.text.Texts;
import org.trebleproof.desktop.work.BlindSession;
import org.trebleproof.desktop.work.Listening;
import org.trebleproof.desktop.work.Loudspeaker;
import org.trebleproof.desktop.work.Trial;
import org.trebleproof.report.words.PredictionText;

/** Hearing the next mod before it is soldered. */
public final class ListenPlace extends Place {

  private final Trial trial;
  private final Listening listening;
  private final CheckBox matched = new CheckBox(Texts.of("listen.matched"));
  private final Label state = Lettering.faint("");
  private final Label source = Lettering.faint("");
  private final Button before;
  private final Button after;
  private final Button make;
  private final Button stop;
  private final Button write;
  private final Button demonstrate;
  private final FlowPane sounds = new FlowPane();

  /**
   * The place.
   *
   * @param exports writes the sounds, and the page about them
   * @param whatIf leads to where a mod is chosen
   */
  public ListenPlace(
      Trial trial,
      Listening listening,
      BlindSession blind,
      Loudspeaker loudspeaker,
      FileAsker files,
      Exports exports,
      Runnable whatIf) {
    super("listen-place");
    this.trial = trial;
    this.listening = listening;
    matched.setSelected(true);
    matched.setOnAction(e -> render());
    make = Lettering.mainButton(Texts.of("listen.make"), this::render);
    before = Lettering.button(Texts.of("listen.before"), () -> listening.play(false));
    after = Lettering.button(Texts.of("listen.after"), () -> listening.play(true));
    stop = Lettering.button(Texts.of("listen.stop"), listening::stop);
    write =
        Lettering.button(
            Texts.of("listen.write"),
            () -> listening.soundsProperty().get().ifPresent(exports::sounds));
    demonstrate =
        Lettering.button(
            Texts.of("listen.demonstrate"),
            () -> exports.demonstration(listening.strikeProperty().get()));
    make.setId("listen-make");
    before.setId("listen-before");
    after.setId("listen-after");
    sounds.getStyleClass().add("buttons");
    sounds.getChildren().addAll(make, before, after, stop, write);
    FlowPane recording = new FlowPane();
    recording.getStyleClass().add("buttons");
    recording
        .getChildren()
        .addAll(
            Lettering.button(
                Texts.of("listen.strike"),
                () ->
                    files.toOpen(Texts.of("listen.strike")).stream()
                        .limit(1)
                        .forEach(listening::setStrike)),
            Lettering.button(Texts.of("listen.computed"), () -> listening.setStrike(null)),
            source);
    FlowPane output = new FlowPane(player(loudspeaker), new LevelSlider(loudspeaker));
    output.getStyleClass().add("buttons");
    write(
        Lettering.styled(Texts.of("listen.title"), "lead"),
        Lettering.text(Texts.of("listen.words")),
        Lettering.styled(Texts.of("listen.caution"), "caution"),
        state,
        sounds,
        matched,
        output,
        recording,
        new BlindSection(
            blind,
            listening,
            score ->
                listening
                    .soundsProperty()
                    .get()
                    .ifPresent(made -> exports.heard(change(), made, score))),
        new FlowPane(10, 6, Lettering.button(Texts.of("listen.what-if"), whatIf), demonstrate));
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
    // Other sounds would end a test: they wait until it is over.
    var testing =
        Bindings.createBooleanBinding(
            () -> blind.standingProperty().get().isPresent(), blind.standingProperty());
    List.of(sounds, matched, recording).forEach(row -> row.disableProperty().bind(testing));
    show();
  }

  private String change() {
    return trial
        .triedProperty()
        .get()
        .map(t -> PredictionText.headline(t.prediction()))
        .orElse(Texts.of("listen.title"));
  }

  /** The device that plays, looked for when it is asked for. */
  private static HBox player(Loudspeaker loudspeaker) {
    ComboBox<String> device = new ComboBox<>();
    device.setPromptText(Texts.of("listen.device.any"));
    device.setAccessibleText(Texts.of("measure.playback"));
    device.setId("listen-device");
    device.setOnShowing(e -> loudspeaker.look());
    Consumer<List<String>> fill =
        found -> {
          List<String> choices = new ArrayList<>(found);
          choices.add(0, "");
          device.getItems().setAll(choices);
        };
    loudspeaker.devicesProperty().addListener((o, old, now) -> fill.accept(now));
    fill.accept(loudspeaker.devicesProperty().get());
    device.setConverter(
        new StringConverter<>() {
          @Override
          public String toString(String name) {
            return name == null || name.isEmpty() ? Texts.of("listen.device.any") : name;
          }

          @Override
          public String fromString(String text) {
            return text;
          }
        });
    device.valueProperty().bindBidirectional(loudspeaker.wantedProperty());
    Label title = Lettering.text(Texts.of("measure.playback"));
    title.setLabelFor(device);
    title.setWrapText(false);
    HBox row = new HBox(title, device);
    row.getStyleClass().add("level-slider");
    return row;
  }

  /** A changed trial makes the sounds out of date. */
  private void forget() {
    if (listening.soundsProperty().get().isPresent()) {
      listening.forget();
    }
    show();
  }

  /** There is something to hear where something is changed. */
  private boolean possible() {
    return trial.triedProperty().get().filter(t -> !t.prediction().changes().isEmpty()).isPresent();
  }

  private void render() {
    trial.triedProperty().get().ifPresent(t -> listening.render(t, matched.isSelected()));
  }

  private void show() {
    boolean possible = possible();
    Optional<Rendering> made = listening.soundsProperty().get();
    make.setDisable(!possible);
    demonstrate.setDisable(trial.triedProperty().get().isEmpty());
    before.setDisable(made.isEmpty());
    stop.setDisable(made.isEmpty());
    write.setDisable(made.isEmpty());
    after.setDisable(made.isEmpty());
    source.setText(
        listening
            .strikeProperty()
            .get()
            .map(f -> Texts.of("listen.through", f.getFileName()))
            .orElse(Texts.of("listen.strings")));
    boolean wrong = listening.problemProperty().get().isPresent();
    state.getStyleClass().setAll("label", wrong ? "mistake" : "faint");
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
