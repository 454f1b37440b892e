package org.trebleproof.desktop.plot;

import java.io.File;
import java.util.List;
import java.util.Locale;
import javafx.scene.control.ContextMenu;
import javafx.scene.control.MenuItem;
import javafx.scene.control.SeparatorMenuItem;
import javafx.scene.input.Clipboard;
import javafx.scene.input.ClipboardContent;
import javafx.scene.input.DataFormat;
import javafx.stage.FileChooser;
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
            new SeparatorMenuItem(),
            item("plot.menu.copy", this::copy),
            item("plot.menu.svg", () -> save(PlotFile.SVG)),
            item("plot.menu.png", () -> save(PlotFile.PNG)),
            item("plot.menu.csv", () -> save(PlotFile.CSV)));
    shown.show(pane, screenX, screenY);
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
    FileChooser chooser = new FileChooser();
    chooser.setTitle(Texts.of("plot.save.title"));
    chooser.setInitialFileName(name(pane.plotProperty().get().title()) + kind.ending());
    chooser
        .getExtensionFilters()
        .add(
            new FileChooser.ExtensionFilter(
                Texts.of("plot.save." + kind.name().toLowerCase(Locale.ROOT)),
                List.of("*" + kind.ending())));
    File file = chooser.showSaveDialog(pane.getScene().getWindow());
    if (file == null) {
      return;
    }
    try {
      kind.write(file.toPath(), pane.inSight(), pane.getWidth(), pane.getHeight());
      pane.setNotice(Texts.of("plot.saved", file.getName()));
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
