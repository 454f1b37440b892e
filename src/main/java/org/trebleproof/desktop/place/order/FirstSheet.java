package org.trebleproof.desktop.place.order;

import java.time.Instant;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.List;
import java.util.Locale;
import java.util.function.Consumer;
import javafx.scene.Cursor;
import javafx.scene.Node;
import javafx.scene.control.Button;
import javafx.scene.input.MouseEvent;
import javafx.scene.layout.FlowPane;
import javafx.scene.layout.VBox;
import org.trebleproof.desktop.draft.RecentJobs;
import org.trebleproof.desktop.place.piece.Lettering;
import org.trebleproof.desktop.place.piece.LineDrawing;
import org.trebleproof.desktop.text.Texts;
import org.trebleproof.desktop.work.Workbench;

/** The empty bench: go on with a job, try the sample, or one of three ways to begin. */
public final class FirstSheet extends VBox {

  /** More recent jobs than these are in the menu. */
  private static final int MOST = 5;

  /** What the sheet leads to. */
  public record Ways(Consumer<String> begin, Runnable open, Runnable sample) {}

  private final Workbench bench;
  private final Ways ways;
  private final FlowPane recent = new FlowPane();
  private final VBox recents = new VBox();

  /** The sheet of a bench. */
  public FirstSheet(Workbench bench, Ways ways) {
    this.bench = bench;
    this.ways = ways;
    getStyleClass().add("begin");
    recent.getStyleClass().add("buttons");
    recents.getStyleClass().add("section");
    recents.getChildren().setAll(Lettering.heading(Texts.of("first.recent")), recent);
    FlowPane open = new FlowPane();
    open.getStyleClass().add("buttons");
    Button sample = Lettering.button(Texts.of("first.sample"), ways.sample());
    sample.setId("open-sample");
    open.getChildren().setAll(Lettering.mainButton(Texts.of("next.go.open"), ways.open()), sample);
    getChildren()
        .setAll(
            Lettering.styled(Texts.of("verdict.empty.title"), "lead"),
            Lettering.text(Texts.of("verdict.empty.words")),
            open,
            recents,
            way("strike", LineDrawing.strikes(), "caution.strikes"),
            way("exciter", LineDrawing.exciter(), "caution.exciter"),
            way("series", LineDrawing.series(), "caution.series"));
  }

  /** Lists the jobs that were opened last. */
  public void refresh() {
    List<RecentJobs.Entry> jobs = bench.recentEntries();
    recents.setVisible(!jobs.isEmpty());
    recents.setManaged(!jobs.isEmpty());
    recent
        .getChildren()
        .setAll(
            jobs.stream()
                .limit(MOST)
                .map(
                    job ->
                        (Node)
                            Lettering.button(
                                Texts.of("recent.of", job.title(), day(job.when())),
                                () -> bench.open(job.file())))
                .toList());
  }

  /** A day as it is said. */
  public static String day(Instant when) {
    return DateTimeFormatter.ofPattern("d MMMM yyyy", Locale.ENGLISH)
        .format(when.atZone(ZoneId.systemDefault()));
  }

  private VBox way(String kind, LineDrawing drawing, String caution) {
    Runnable begin = () -> ways.begin().accept(kind);
    drawing.setCursor(Cursor.HAND);
    drawing.addEventHandler(MouseEvent.MOUSE_CLICKED, e -> begin.run());
    Button go = Lettering.button(Texts.of("first.begin." + kind), begin);
    go.setId("first-" + kind);
    VBox way =
        new VBox(
            Lettering.heading(Texts.of("first.way." + kind)),
            drawing,
            go,
            Lettering.faint(Texts.of(caution)));
    way.getStyleClass().add("section");
    return way;
  }
}
