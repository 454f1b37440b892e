package org.trebleproof.desktop.place.order;

import java.util.List;
import java.util.Optional;
import javafx.scene.Node;
import javafx.scene.control.Label;
import javafx.scene.control.ScrollPane;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Priority;
import javafx.scene.layout.Region;
import javafx.scene.layout.VBox;
import org.trebleproof.desktop.draft.JobDraft;
import org.trebleproof.desktop.place.piece.Lettering;
import org.trebleproof.desktop.place.piece.ValueField;
import org.trebleproof.desktop.text.Texts;
import org.trebleproof.desktop.work.Fault;
import org.trebleproof.desktop.work.Workbench;
import org.trebleproof.desktop.work.WorkedOut;
import org.trebleproof.report.words.Headline;

/** The work order: what is connected, what is known, the captures, the verdict. */
public final class WorkOrder extends ScrollPane {

  /** A title of more letters is set smaller, so that less of it is cut. */
  private static final int LONG_TITLE = 32;

  private final Workbench bench;
  private final FixtureSection fixture;
  private final PartsSection parts;
  private final SetupsSection setups;
  private final CapturesSection captures;
  private final Label[] standings = new Label[4];
  private final Label verdict = Lettering.text("");
  private final ValueField title;

  /**
   * The order on a bench.
   *
   * @param addFiles asks for recordings
   */
  public WorkOrder(Workbench bench, Runnable addFiles) {
    this.bench = bench;
    getStyleClass().add("work-order");
    setFitToWidth(true);
    setHbarPolicy(ScrollBarPolicy.NEVER);
    fixture = new FixtureSection(bench);
    parts = new PartsSection(bench);
    setups = new SetupsSection(bench);
    captures = new CapturesSection(bench, addFiles);
    title =
        new ValueField(
            Texts.of("order.title"),
            text -> text.isBlank() ? Texts.of("order.title.missing") : "",
            text -> bench.edit(Texts.of("edit.title"), d -> d.withTitle(text)));
    title.getStyleClass().add("title");
    title.field().setId("job-title");
    title
        .field()
        .textProperty()
        .addListener(
            (o, old, now) -> {
              title.getStyleClass().remove("long");
              if (now.length() > LONG_TITLE) {
                title.getStyleClass().add("long");
              }
            });
    title.prompt(Texts.of("order.title.prompt"));
    VBox page =
        new VBox(
            title,
            new HeadingSection(bench),
            item(0, "order.connected", fixture),
            item(1, "order.known", parts, setups),
            item(2, "order.captures", captures),
            item(3, "order.verdict", verdict));
    page.getStyleClass().add("page");
    setContent(page);
    bench.draftProperty().addListener((o, old, now) -> stand());
    bench.verdictProperty().addListener((o, old, now) -> stand());
    bench.workingProperty().addListener((o, old, now) -> stand());
    bench.problemProperty().addListener((o, old, now) -> stand());
    stand();
  }

  private VBox item(int number, String key, Node... content) {
    Label standing = Lettering.styled("", "standing");
    standing.setWrapText(false);
    standing.setMinWidth(Region.USE_PREF_SIZE);
    standings[number] = standing;
    Label heading = Lettering.heading(number + 1 + "  " + Texts.of(key));
    heading.setMaxWidth(Double.MAX_VALUE);
    HBox.setHgrow(heading, Priority.ALWAYS);
    HBox head = new HBox(heading, standing);
    head.getStyleClass().add("item-head");
    VBox item = new VBox(head);
    item.getChildren().addAll(content);
    item.getStyleClass().add("item");
    return item;
  }

  /** Puts the keyboard on what is connected. */
  public void goToFixture() {
    setVvalue(0);
    fixture.begin();
  }

  /** Puts the keyboard on what is wrong with the parts or setups, else on the parts. */
  public void goToParts() {
    Optional<Fault> fault = bench.faultProperty().get();
    if (fault.filter(f -> f.section().equals("setups")).isPresent()) {
      setups.begin(fault.get().of(), fault.get().key());
    } else if (fault.filter(f -> f.section().equals("parts") && !f.of().isEmpty()).isPresent()) {
      parts.begin(fault.get().of());
    } else {
      parts.begin();
    }
  }

  /** Puts the keyboard on the captures. */
  public void goToCaptures() {
    captures.begin();
  }

  private void stand() {
    Optional<JobDraft> job = bench.draftProperty().get();
    title.setDisable(job.isEmpty());
    title.show(job.map(JobDraft::title).orElse(""));
    String faulty = bench.faultProperty().get().map(Fault::section).orElse("");
    boolean known =
        job.filter(d -> !d.setups().isEmpty()).isPresent()
            && !faulty.equals("parts")
            && !faulty.equals("setups");
    boolean heard =
        job.filter(
                d ->
                    !d.captures().isEmpty()
                        && d.captures().stream().noneMatch(c -> c.setup().isEmpty()))
            .isPresent();
    boolean connected =
        job.filter(d -> !d.fixtureKind().isEmpty()).isPresent() && !faulty.equals("fixture");
    Optional<WorkedOut> found = bench.verdictProperty().get();
    boolean refused = found.filter(v -> v.result().verdict().refused()).isPresent();
    String last =
        bench.workingProperty().get()
            ? "working"
            : bench.problemProperty().get().isPresent()
                ? "open"
                : found.isEmpty() ? "open" : refused ? "refused" : "done";
    List<String> all =
        List.of(
            connected ? "done" : "open",
            known ? "done" : "open",
            heard && !faulty.equals("captures")
                ? refused && last.equals("refused") ? "refused" : "done"
                : "open",
            last);
    for (int i = 0; i < standings.length; i++) {
      String standing = job.isEmpty() ? "open" : all.get(i);
      standings[i].setText(Texts.of("order.standing." + standing));
      standings[i].getStyleClass().setAll("standing", "standing-" + standing);
    }
    verdict.setText(
        last.equals("working")
            ? Texts.of("next.wait")
            : bench
                .problemProperty()
                .get()
                .filter(p -> p.equals(bench.nextProperty().get().text()))
                .orElseGet(
                    () ->
                        found
                            .map(v -> Headline.of(v.result()))
                            .orElse(Texts.of("order.verdict.none"))));
  }
}
