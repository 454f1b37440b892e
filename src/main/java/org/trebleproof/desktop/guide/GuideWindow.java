package org.trebleproof.desktop.guide;

import javafx.scene.Scene;
import javafx.scene.control.ListCell;
import javafx.scene.control.ListView;
import javafx.scene.control.ScrollPane;
import javafx.scene.input.KeyCode;
import javafx.scene.input.KeyEvent;
import javafx.scene.layout.BorderPane;
import javafx.scene.layout.Region;
import javafx.scene.layout.VBox;
import javafx.stage.Stage;
import javafx.stage.Window;
import org.trebleproof.desktop.text.Texts;

/** The guide in a window of its own, which looks like the one that opened it. */
public final class GuideWindow {

  private static final double WIDTH = 980;
  private static final double HEIGHT = 700;

  private GuideWindow() {}

  /** Opens the guide beside a window. */
  public static void show(Window owner) {
    ListView<String> pages = new ListView<>();
    pages.setId("guide-pages");
    pages.setAccessibleText(Texts.of("guide.pages"));
    pages.getItems().setAll(GuidePages.ALL);
    pages.setCellFactory(
        view ->
            new ListCell<>() {
              @Override
              protected void updateItem(String page, boolean empty) {
                super.updateItem(page, empty);
                setText(empty || page == null ? "" : GuidePages.title(page));
              }
            });
    ScrollPane sheet = new ScrollPane();
    sheet.setFitToWidth(true);
    sheet.setHbarPolicy(ScrollPane.ScrollBarPolicy.NEVER);
    sheet.getStyleClass().addAll("place", "guide-sheet");
    sheet.setId("guide-sheet");
    pages
        .getSelectionModel()
        .selectedItemProperty()
        .addListener(
            (o, old, now) -> {
              sheet.setContent(new MarkdownSheet(GuidePages.text(now)));
              sheet.setVvalue(0);
            });
    BorderPane root = new BorderPane(sheet);
    root.setLeft(pages);
    Stage stage = open(owner, root, Texts.of("guide.title"));
    stage.setWidth(WIDTH);
    stage.setHeight(HEIGHT);
    pages.getSelectionModel().selectFirst();
    pages.requestFocus();
  }

  /**
   * Says what the program is, under which licence, and what it is made of.
   *
   * @param version of the program
   */
  public static void about(Window owner, String version) {
    VBox words =
        new VBox(
            new MarkdownSheet(
                "# "
                    + Texts.of("window.title")
                    + "\n\n"
                    + Texts.of("about.version", version)
                    + "\n\n"
                    + Texts.of("about.parts").replace("; ", ";\n\n")
                    + "\n\n```\n"
                    + GuidePages.licence()
                    + "\n```\n"));
    ScrollPane sheet = new ScrollPane(words);
    sheet.setFitToWidth(true);
    sheet.getStyleClass().addAll("place", "guide-sheet");
    sheet.setId("about-sheet");
    Stage stage = open(owner, new BorderPane(sheet), Texts.of("about.title"));
    stage.setWidth(0.8 * WIDTH);
    stage.setHeight(0.8 * HEIGHT);
  }

  private static Stage open(Window owner, Region root, String title) {
    root.getStyleClass().setAll(owner.getScene().getRoot().getStyleClass());
    root.setStyle(owner.getScene().getRoot().getStyle());
    Scene scene = new Scene(root);
    scene.getStylesheets().setAll(owner.getScene().getStylesheets());
    Stage stage = new Stage();
    stage.initOwner(owner);
    stage.setTitle(title);
    stage.setScene(scene);
    scene.addEventHandler(
        KeyEvent.KEY_PRESSED,
        e -> {
          if (e.getCode() == KeyCode.ESCAPE) {
            stage.close();
          }
        });
    stage.show();
    return stage;
  }
}
