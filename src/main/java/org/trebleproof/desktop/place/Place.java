package org.trebleproof.desktop.place;

import java.nio.file.Path;
import java.util.HashMap;
import java.util.Map;
import java.util.Optional;
import javafx.beans.property.DoubleProperty;
import javafx.beans.property.ReadOnlyDoubleWrapper;
import javafx.beans.property.SimpleDoubleProperty;
import javafx.beans.value.ObservableDoubleValue;
import javafx.scene.Node;
import javafx.scene.control.ScrollPane;
import javafx.scene.layout.StackPane;
import javafx.scene.layout.VBox;
import org.trebleproof.desktop.draft.JobDraft;
import org.trebleproof.desktop.plot.PlotGround;
import org.trebleproof.desktop.plot.PlotGroup;
import org.trebleproof.desktop.plot.PlotPane;
import org.trebleproof.desktop.work.Workbench;

/** A sheet of the notebook: what stands on it is written from top to bottom. */
public abstract class Place extends ScrollPane implements PlotGround {

  private final VBox page = new VBox();
  private final ReadOnlyDoubleWrapper inSight = new ReadOnlyDoubleWrapper(this, "heightInSight");
  private final Map<String, DoubleProperty> shares = new HashMap<>();
  private double scrolled;

  /** An empty sheet. */
  protected Place(String style) {
    getStyleClass().addAll("place", style);
    page.getStyleClass().add("page");
    setFitToWidth(true);
    setHbarPolicy(ScrollBarPolicy.NEVER);
    setContent(page);
    heightProperty().addListener((o, old, now) -> inSight.set(now.doubleValue()));
  }

  /** Writes the sheet anew. */
  protected final void write(Node... nodes) {
    page.getChildren().setAll(nodes);
  }

  /** Adds to what is written. */
  protected final void add(Node... nodes) {
    page.getChildren().addAll(nodes);
  }

  /** Plots of the job on a bench: another job has its own views, and its own place for files. */
  protected static PlotGroup plotsOf(Workbench bench) {
    PlotGroup group = new PlotGroup();
    bench.jobsProperty().addListener(o -> group.reset());
    group.setOrigin(
        () -> {
          Optional<JobDraft> job = bench.draftProperty().get();
          return new PlotGroup.Origin(
              job.map(d -> d.source().toAbsolutePath().getParent())
                  .orElse(Path.of(System.getProperty("user.home", "."))),
              job.map(d -> d.title().replaceAll("[^\\p{L}\\p{N} ,._-]+", "").strip()).orElse(""));
        });
    return group;
  }

  /** The share of the height in sight that a plot takes, as it was set last. */
  protected final DoubleProperty share(String plot, double first) {
    return shares.computeIfAbsent(plot, p -> new SimpleDoubleProperty(this, p, first));
  }

  @Override
  public final ObservableDoubleValue heightInSight() {
    return inSight.getReadOnlyProperty();
  }

  @Override
  public final boolean filled() {
    return getContent() != page;
  }

  @Override
  public final void fill(PlotPane plot) {
    if (filled()) {
      setContent(page);
      setFitToHeight(false);
      layout();
      setVvalue(scrolled);
      return;
    }
    scrolled = getVvalue();
    PlotPane alone = plot.again();
    StackPane sheet = new StackPane(alone);
    sheet.getStyleClass().add("plot-alone");
    setContent(sheet);
    setFitToHeight(true);
    alone.requestFocus();
  }
}
