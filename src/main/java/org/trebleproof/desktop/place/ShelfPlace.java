package org.trebleproof.desktop.place;

import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.BiConsumer;
import java.util.function.Supplier;
import javafx.collections.ListChangeListener;
import javafx.scene.Node;
import javafx.scene.control.Button;
import javafx.scene.control.Label;
import javafx.scene.control.TextField;
import javafx.scene.layout.FlowPane;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Priority;
import javafx.scene.layout.VBox;
import org.trebleproof.desktop.ask.FileAsker;
import org.trebleproof.desktop.draft.JobDraft;
import org.trebleproof.desktop.place.piece.Lettering;
import org.trebleproof.desktop.place.piece.SteadyRoom;
import org.trebleproof.desktop.plot.PlotFrame;
import org.trebleproof.desktop.plot.PlotGroup;
import org.trebleproof.desktop.plot.PlotPane;
import org.trebleproof.desktop.text.Texts;
import org.trebleproof.desktop.work.CoilShelf;
import org.trebleproof.desktop.work.Workbench;
import org.trebleproof.report.page.BatchPage;
import org.trebleproof.report.page.CoilPlots;
import org.trebleproof.report.plot.FrequencyPlot;
import org.trebleproof.report.words.PairText;
import org.trebleproof.report.words.Sentence;
import org.trebleproof.shelf.item.ShelvedCoil;
import org.trebleproof.shelf.sheet.BatchSheet;
import org.trebleproof.shelf.sheet.CoilPairs;

/** The shelf: coils that were measured before, found again, laid over each other, compared. */
public final class ShelfPlace extends Place {

  /** Share of the height in sight that the table takes. */
  private static final double TABLE = 0.42;

  private static final double CURVES = 0.4;
  private static final double DIFFERENCE = 0.3;

  /** More curves than this over each other are a smear. */
  private static final int MOST = 40;

  /** So many of an evening's coils are told of. */
  private static final int LINES = 12;

  private final CoilShelf shelf;
  private final Workbench bench;
  private final FileAsker files;
  private final String version;
  private final BiConsumer<String, Supplier<String>> writePage;
  private final Label ruler = new Label();
  private final TextField filter = new TextField();
  private final Label count = Lettering.faint("");
  private final SteadyRoom said = new SteadyRoom(110, "words");
  private final VBox evening = new VBox();
  private final VBox compared = new VBox();
  private final PlotGroup group = new PlotGroup();
  private final CoilTable table;
  private final Button sheet;
  private PlotPane curves;
  private PlotFrame curvesFrame;
  private PlotPane difference;
  private PlotFrame differenceFrame;
  private int asked;

  /**
   * The place.
   *
   * @param bench its job says how coils that are put there were recorded
   * @param version of the program, for the pages
   * @param writePage asks for a place and writes a page of that name
   */
  public ShelfPlace(
      CoilShelf shelf,
      Workbench bench,
      FileAsker files,
      String version,
      BiConsumer<String, Supplier<String>> writePage) {
    super("shelf-place");
    this.bench = bench;
    this.files = files;
    this.shelf = shelf;
    this.version = version;
    this.writePage = writePage;
    ruler.setVisible(false);
    ruler.setManaged(false);
    table = new CoilTable(shelf, ruler);
    heightInSight().addListener((o, old, now) -> table.setPrefHeight(TABLE * now.doubleValue()));
    table.setPrefHeight(TABLE * heightInSight().get());
    filter.setId("shelf-filter");
    filter.setPromptText(Texts.of("shelf.filter.prompt"));
    filter.setAccessibleText(Texts.of("shelf.filter"));
    filter.textProperty().addListener((o, old, now) -> shelf.filter(now));
    HBox.setHgrow(filter, Priority.ALWAYS);
    count.setId("shelf-count");
    sheet = Lettering.button(Texts.of("shelf.sheet"), this::writeSheet);
    sheet.setId("shelf-sheet");
    compared.getStyleClass().add("page-part");
    evening.setId("shelf-evening");
    table
        .getSelectionModel()
        .getSelectedItems()
        .addListener((ListChangeListener<ShelvedCoil>) change -> compare());
    shelf.shownProperty().addListener((o, old, now) -> show());
    shelf.problemProperty().addListener((o, old, now) -> say());
    show();
  }

  private void show() {
    CoilShelf.Shown now = shelf.shownProperty().get();
    sheet.setDisable(now.coils().isEmpty());
    count.setText(Texts.of("shelf.count", now.coils().size(), now.all()));
    if (now.all() == 0) {
      write(
          ruler,
          Lettering.styled(Texts.of("shelf.title"), "lead"),
          Lettering.text(Texts.of("shelf.empty")),
          Lettering.faint(Texts.of("shelf.where", shelf.words())),
          said,
          buttons(add(), again()),
          evening);
    } else if (table.getParent() == null) {
      HBox line = new HBox(filter, count);
      line.getStyleClass().add("shelf-line");
      write(
          ruler,
          Lettering.styled(Texts.of("shelf.title"), "lead"),
          line,
          table,
          said,
          buttons(sheet, add(), again()),
          evening,
          compared);
    }
    say();
  }

  private static FlowPane buttons(Button... some) {
    FlowPane buttons = new FlowPane(some);
    buttons.getStyleClass().add("buttons");
    return buttons;
  }

  private Button add() {
    Button add = Lettering.button(Texts.of("shelf.add"), this::addRecordings);
    add.setId("shelf-add");
    return add;
  }

  /** Recordings of coils, made as those of the job on the bench were. */
  private void addRecordings() {
    Optional<JobDraft> like = bench.draftProperty().get().filter(d -> !d.fixtureKind().isEmpty());
    if (like.isEmpty()) {
      said.hold(Lettering.styled(Texts.of("shelf.fixture"), "mistake"));
      return;
    }
    List<Path> recordings = files.toOpen(Texts.of("shelf.add.title"));
    if (!recordings.isEmpty()) {
      evening.getChildren().clear();
      shelf.add(recordings, like.get(), version, this::tell);
    }
  }

  /** The last that was measured stands first. */
  private void tell(CoilShelf.Added one) {
    String mark = Texts.of(one.good() ? "captures.mark.good" : "captures.mark.refused");
    String words = mark + " " + one.words();
    evening.getChildren().add(0, one.good() ? Lettering.text(words) : strong(words));
    if (evening.getChildren().size() > LINES) {
      evening.getChildren().remove(LINES);
    }
  }

  private static Label strong(String words) {
    return Lettering.styled(words, "strong");
  }

  private Button again() {
    return Lettering.button(Texts.of("shelf.again"), shelf::look);
  }

  private List<ShelvedCoil> chosen() {
    return List.copyOf(table.getSelectionModel().getSelectedItems());
  }

  private void say() {
    Optional<String> problem = shelf.problemProperty().get();
    if (problem.isPresent()) {
      said.hold(Lettering.styled(Sentence.of(problem.get()), "mistake"));
    } else if (chosen().size() != 2) {
      String help = chosen().size() > MOST ? "shelf.many" : "shelf.help";
      boolean empty = shelf.shownProperty().get().all() == 0;
      said.hold(Lettering.text(empty ? "" : Texts.of(help)));
    }
  }

  /** Reads the curves of what is chosen, and shows them unless something else was chosen since. */
  private void compare() {
    int mine = ++asked;
    List<ShelvedCoil> some = chosen().stream().limit(MOST).toList();
    say();
    if (some.isEmpty()) {
      compared.getChildren().clear();
      return;
    }
    shelf.curves(
        some,
        found -> {
          if (mine == asked) {
            overlay(found.stream().filter(c -> c.curve().isPresent()).toList());
          }
        });
  }

  private void overlay(List<ShelvedCoil> coils) {
    if (coils.isEmpty()) {
      compared.getChildren().setAll(Lettering.faint(Texts.of("shelf.no.curve")));
      return;
    }
    List<Node> shown = new ArrayList<>();
    curves = drawn(curves, CoilPlots.over(coils), "levels");
    curvesFrame = curvesFrame == null ? framed(curves, "curves", CURVES) : curvesFrame;
    shown.add(curvesFrame);
    if (coils.size() == 2) {
      difference =
          drawn(difference, CoilPlots.difference(coils.get(0), coils.get(1)), "difference");
      differenceFrame =
          differenceFrame == null ? framed(difference, "difference", DIFFERENCE) : differenceFrame;
      shown.add(differenceFrame);
      new CoilPairs(coils)
          .alike(1).stream()
              .findFirst()
              .ifPresent(
                  p -> said.hold(Lettering.sentence(Sentence.of(PairText.pair(p)), "words")));
    }
    if (!compared.getChildren().equals(shown)) {
      compared.getChildren().setAll(shown);
    }
  }

  private PlotPane drawn(PlotPane there, FrequencyPlot plot, String style) {
    if (there != null) {
      there.plotProperty().set(plot);
      return there;
    }
    PlotPane pane = new PlotPane(plot, group);
    pane.setId("shelf-" + style);
    pane.getStyleClass().add(style);
    return pane;
  }

  private PlotFrame framed(PlotPane pane, String name, double share) {
    return new PlotFrame(pane, this, share(name, share));
  }

  /** The batch sheet of what is chosen; of all that are left where fewer than two are. */
  private void writeSheet() {
    List<ShelvedCoil> some = chosen().size() > 1 ? chosen() : shelf.shownProperty().get().coils();
    List<String> recipes = some.stream().map(ShelvedCoil::recipe).distinct().toList();
    String title =
        recipes.size() == 1 && !recipes.get(0).isEmpty() ? recipes.get(0) : Texts.of("shelf.batch");
    writePage.accept(
        title,
        () ->
            BatchPage.of(
                BatchSheet.of(title, shelf.withCurves(some)), version, LocalDate.now().toString()));
  }
}
