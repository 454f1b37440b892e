package org.trebleproof.desktop.place;

import java.time.LocalDate;
import java.util.Optional;
import javafx.beans.property.ReadOnlyBooleanProperty;
import javafx.beans.property.SimpleBooleanProperty;
import javafx.scene.Group;
import javafx.scene.control.Button;
import javafx.scene.control.CheckBox;
import javafx.scene.layout.FlowPane;
import javafx.scene.layout.VBox;
import javafx.scene.transform.Scale;
import org.trebleproof.desktop.ask.SheetPrinter;
import org.trebleproof.desktop.place.order.Exports;
import org.trebleproof.desktop.place.piece.CustomerPaper;
import org.trebleproof.desktop.place.piece.Lettering;
import org.trebleproof.desktop.text.Texts;
import org.trebleproof.desktop.work.Trial;
import org.trebleproof.desktop.work.Workbench;
import org.trebleproof.desktop.work.WorkedOut;
import org.trebleproof.quantity.Refusal;
import org.trebleproof.report.words.Headline;

/** What is written for others: the page for the customer, the numbers for other programs. */
public final class PagePlace extends Place {

  /** Share of its size at which the sheet is shown. */
  private static final double MOST = 0.5;

  private static final double LEAST = 0.25;

  /** Share of the place's width that it may take. */
  private static final double ROOM = 0.88;

  private final Workbench bench;
  private final VBox preview = new VBox();
  private final Group shrunk = new Group();
  private final Scale scale = new Scale(MOST, MOST);
  private ReadOnlyBooleanProperty inSight = new SimpleBooleanProperty(false);
  private Optional<WorkedOut> drawn = Optional.empty();
  private CustomerPaper paper;
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
    Button look =
        Lettering.button(
            Texts.of("page.look"), () -> exports.look(heard.isVisible() && heard.isSelected()));
    look.setId("open-page");
    Button print = Lettering.button(Texts.of("page.print"), this::print);
    print.setId("print-page");
    measured
        .getChildren()
        .addAll(
            page,
            look,
            print,
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
    widthProperty().addListener((o, old, now) -> fit());
    preview.getStyleClass().add("page-part");
    shrunk.getTransforms().add(scale);
    trial.triedProperty().addListener((o, old, now) -> show());
    show();
  }

  /** The sheet is drawn only while somebody looks at it. */
  public void drawWhile(ReadOnlyBooleanProperty looked) {
    inSight = looked;
    looked.addListener(o -> preview());
    preview();
  }

  private void preview() {
    Optional<WorkedOut> verdict = bench.verdictProperty().get();
    if (!inSight.get() || verdict.equals(drawn)) {
      return;
    }
    drawn = verdict;
    preview.getChildren().clear();
    shrunk.getChildren().clear();
    verdict.ifPresent(
        v -> {
          paper = new CustomerPaper(v, LocalDate.now().toString());
          shrunk.getChildren().setAll(paper);
          fit();
          preview
              .getChildren()
              .setAll(Lettering.heading(Texts.of("page.preview")), new Group(shrunk));
        });
  }

  private void fit() {
    double share = Math.max(LEAST, Math.min(MOST, ROOM * getWidth() / CustomerPaper.WIDTH));
    scale.setX(share);
    scale.setY(share);
  }

  private void print() {
    try {
      if (SheetPrinter.print(paper)) {
        bench.say(Texts.of("paper.printed"));
      }
    } catch (Refusal e) {
      bench.say(e.getMessage());
    }
  }

  private void show() {
    preview();
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
        preview,
        Lettering.heading(Texts.of("page.plan.title")),
        Lettering.text(Texts.of("page.plan.words")),
        planned,
        Lettering.heading(Texts.of("page.demonstrate.title")),
        Lettering.text(Texts.of("page.demonstrate.words")),
        turned);
  }
}
