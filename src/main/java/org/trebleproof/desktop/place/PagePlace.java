package org.trebleproof.desktop.place;

import java.util.Optional;
import javafx.scene.control.Button;
import javafx.scene.control.CheckBox;
import javafx.scene.layout.FlowPane;
import org.trebleproof.desktop.place.order.Exports;
import org.trebleproof.desktop.place.piece.Lettering;
import org.trebleproof.desktop.text.Texts;
import org.trebleproof.desktop.work.Trial;
import org.trebleproof.desktop.work.Workbench;
import org.trebleproof.desktop.work.WorkedOut;
import org.trebleproof.report.words.Headline;

/** What is written for others: the page for the customer, the numbers for other programs. */
public final class PagePlace extends Place {

  private final Workbench bench;
  private final Trial trial;
  private final FlowPane measured = new FlowPane();
  private final FlowPane planned = new FlowPane();
  private final FlowPane turned = new FlowPane();
  private final CheckBox heard = new CheckBox(Texts.of("page.sounds"));

  /**
   * The place.
   *
   * @param exports writes what is asked for
   */
  public PagePlace(Workbench bench, Trial trial, Exports exports) {
    super("page-place");
    this.bench = bench;
    this.trial = trial;
    measured.getStyleClass().add("buttons");
    planned.getStyleClass().add("buttons");
    Button page =
        Lettering.mainButton(
            Texts.of("page.write"), () -> exports.page(heard.isVisible() && heard.isSelected()));
    page.setId("write-page");
    Button again = Lettering.button(Texts.of("page.again"), exports::openPage);
    again.setId("open-page");
    again.setDisable(true);
    exports.pageProperty().addListener((o, old, now) -> again.setDisable(now.isEmpty()));
    measured
        .getChildren()
        .addAll(
            page,
            again,
            Lettering.button(Texts.of("page.csv"), exports::curves),
            Lettering.button(Texts.of("page.json"), exports::numbers));
    planned.getChildren().add(Lettering.button(Texts.of("page.plan"), exports::plan));
    turned.getStyleClass().add("buttons");
    Button demonstrate =
        Lettering.button(
            Texts.of("page.demonstrate"), () -> exports.demonstration(Optional.empty()));
    demonstrate.setId("write-demonstration");
    turned.getChildren().add(demonstrate);
    heard.managedProperty().bind(heard.visibleProperty());
    bench.verdictProperty().addListener((o, old, now) -> show());
    trial.triedProperty().addListener((o, old, now) -> show());
    show();
  }

  private void show() {
    Optional<WorkedOut> verdict = bench.verdictProperty().get();
    measured.setDisable(verdict.isEmpty());
    planned.setDisable(trial.triedProperty().get().isEmpty());
    turned.setDisable(trial.triedProperty().get().isEmpty());
    heard.setVisible(
        verdict.filter(v -> v.result().job().setups().size() > 1).isPresent()
            && !verdict.get().result().verdict().refused());
    write(Lettering.styled(Texts.of("page.title"), "lead"));
    add(
        verdict.isPresent()
            ? Lettering.sentence(Headline.of(verdict.get().result()), "verdict-line")
            : Lettering.text(Texts.of("page.empty")));
    add(
        Lettering.text(Texts.of("page.words")),
        heard,
        measured,
        Lettering.heading(Texts.of("page.plan.title")),
        Lettering.text(Texts.of("page.plan.words")),
        planned,
        Lettering.heading(Texts.of("page.demonstrate.title")),
        Lettering.text(Texts.of("page.demonstrate.words")),
        turned);
  }
}
