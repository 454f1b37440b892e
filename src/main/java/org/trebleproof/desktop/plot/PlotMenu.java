package org.trebleproof.desktop.plot;

import java.nio.file.Path;
import java.util.Locale;
import java.util.Optional;
import javafx.scene.control.ContextMenu;
import javafx.scene.control.MenuItem;
import javafx.scene.control.SeparatorMenuItem;
import javafx.scene.input.Clipboard;
import javafx.scene.input.ClipboardContent;
import javafx.scene.input.DataFormat;
import org.trebleproof.desktop.ask.FileAsker;
import org.trebleproof.desktop.text.Texts;
import org.trebleproof.quantity.Refusal;
import org.trebleproof.report.plot.FrequencyPlot;
import org.trebleproof.report.plot.PlotCsv;
import org.trebleproof.report.plot.SvgPlot;

/** What can be done with a plot: look at it again, copy it, write it to a file. */
final class PlotMenu {

  private static final DataFormat SVG = svgFormat();

  private final PlotPane pane;
  private final PlotGroup group;
  private ContextMenu shown;

  PlotMenu(PlotPane pane, PlotGroup group) {
    this.pane = pane;
    this.group = group;
  }

  private static DataFormat svgFormat() {
    DataFormat known = DataFormat.lookupMimeType("image/svg+xml");
    return known == null ? new DataFormat("image/svg+xml") : known;
  }

  void show(double screenX, double screenY) {
    hide();
    MenuItem back = item("plot.menu.back", group::goBack);
    back.setDisable(!group.canGoBackProperty().get());
    MenuItem forward = item("plot.menu.forward", group::goForward);
    forward.setDisable(!group.canGoForwardProperty().get());
    shown =
        new ContextMenu(
            back,
            forward,
            item("plot.menu.whole", group::showWhole),
            fill(),
            new SeparatorMenuItem(),
            item("plot.menu.copy", this::copy),
            item("plot.menu.svg", () -> save(PlotFile.SVG)),
            item("plot.menu.png", () -> save(PlotFile.PNG)),
            item("plot.menu.csv", () -> save(PlotFile.CSV)));
    shown.show(pane, screenX, screenY);
  }

  private MenuItem fill() {
    Optional<PlotGround> ground = pane.ground();
    boolean filled = ground.filter(PlotGround::filled).isPresent();
    MenuItem item =
        item(
            filled ? "plot.menu.unfill" : "plot.menu.fill",
            () -> ground.ifPresent(g -> g.fill(pane)));
    item.setDisable(ground.isEmpty());
    return item;
  }

  void hide() {
    if (shown != null) {
      shown.hide();
      shown = null;
    }
  }

  private static MenuItem item(String key, Runnable action) {
    MenuItem item = new MenuItem(Texts.of(key));
    item.setOnAction(e -> action.run());
    return item;
  }

  /** Picture, drawing and table to the clipboard: whatever the other program can take. */
  void copy() {
    FrequencyPlot plot = pane.inSight();
    ClipboardContent content = new ClipboardContent();
    content.putImage(PlotFile.picture(plot, pane.getWidth(), pane.getHeight()));
    content.putString(PlotCsv.of(plot));
    content.put(SVG, SvgPlot.alone(plot, pane.getWidth(), pane.getHeight()));
    Clipboard.getSystemClipboard().setContent(content);
    pane.setNotice(Texts.of("plot.copied"));
  }

  private void save(PlotFile kind) {
    PlotGroup.Origin origin = group.origin();
    FileAsker files = FileAsker.of(pane.getScene().getWindow());
    String plot = name(pane.plotProperty().get().title());
    files
        .toWrite(
            Texts.of("plot.save.title"),
            origin.folder(),
            (origin.job().isEmpty() ? plot : origin.job() + ", " + plot) + kind.ending(),
            Texts.of("plot.save." + kind.name().toLowerCase(Locale.ROOT)),
            kind.ending())
        .ifPresent(file -> write(kind, file));
  }

  private void write(PlotFile kind, Path file) {
    try {
      kind.write(file, pane.inSight(), pane.getWidth(), pane.getHeight());
      pane.setNotice(Texts.of("plot.saved", file.getFileName()));
    } catch (Refusal e) {
      pane.setNotice(e.getMessage());
    }
  }

  /** A title as a file's name. */
  static String name(String title) {
    String name =
        title.toLowerCase(Locale.ROOT).replaceAll("[^\\p{L}\\p{N}]+", "-").replaceAll("^-|-$", "");
    return name.isEmpty() ? "plot" : name;
  }
}
