package org.trebleproof.desktop;

import java.nio.file.Files;
import java.nio.file.Path;
import java.security.SecureRandom;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Consumer;
import java.util.function.Supplier;
import javafx.application.Platform;
import javafx.scene.Node;
import javafx.scene.Scene;
import javafx.scene.control.Button;
import javafx.scene.control.CheckMenuItem;
import javafx.scene.control.Label;
import javafx.scene.control.Menu;
import javafx.scene.control.MenuBar;
import javafx.scene.control.MenuItem;
import javafx.scene.control.RadioMenuItem;
import javafx.scene.control.SeparatorMenuItem;
import javafx.scene.control.Tab;
import javafx.scene.control.TabPane;
import javafx.scene.control.TextInputControl;
import javafx.scene.control.ToggleGroup;
import javafx.scene.control.Tooltip;
import javafx.scene.image.Image;
import javafx.scene.input.KeyCode;
import javafx.scene.input.KeyCodeCombination;
import javafx.scene.input.KeyCombination;
import javafx.scene.input.KeyEvent;
import javafx.scene.input.TransferMode;
import javafx.scene.layout.BorderPane;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Priority;
import javafx.scene.layout.Region;
import javafx.scene.layout.VBox;
import javafx.stage.Stage;
import org.trebleproof.audio.device.SoundSystem;
import org.trebleproof.desktop.ask.FileAsker;
import org.trebleproof.desktop.draft.KeptSession;
import org.trebleproof.desktop.draft.RecentJobs;
import org.trebleproof.desktop.draft.SampleJob;
import org.trebleproof.desktop.guide.GuideWindow;
import org.trebleproof.desktop.look.Look;
import org.trebleproof.desktop.look.LookFile;
import org.trebleproof.desktop.look.Scheme;
import org.trebleproof.desktop.place.EvidencePlace;
import org.trebleproof.desktop.place.HumPlace;
import org.trebleproof.desktop.place.ListenPlace;
import org.trebleproof.desktop.place.MeasurePlace;
import org.trebleproof.desktop.place.PagePlace;
import org.trebleproof.desktop.place.ShelfPlace;
import org.trebleproof.desktop.place.VerdictPlace;
import org.trebleproof.desktop.place.WhatIfPlace;
import org.trebleproof.desktop.place.order.Exports;
import org.trebleproof.desktop.place.order.FirstSheet;
import org.trebleproof.desktop.place.order.NextCard;
import org.trebleproof.desktop.place.order.RestoreBar;
import org.trebleproof.desktop.place.order.WorkOrder;
import org.trebleproof.desktop.place.piece.TaskStrip;
import org.trebleproof.desktop.place.piece.Typed;
import org.trebleproof.desktop.place.piece.ValueField;
import org.trebleproof.desktop.task.LatestAnswer;
import org.trebleproof.desktop.task.LatestWins;
import org.trebleproof.desktop.task.TaskBoard;
import org.trebleproof.desktop.text.Texts;
import org.trebleproof.desktop.work.BlindSession;
import org.trebleproof.desktop.work.CoilShelf;
import org.trebleproof.desktop.work.HeldPlaying;
import org.trebleproof.desktop.work.HumVisit;
import org.trebleproof.desktop.work.Listening;
import org.trebleproof.desktop.work.Loudspeaker;
import org.trebleproof.desktop.work.Measuring;
import org.trebleproof.desktop.work.NextStep;
import org.trebleproof.desktop.work.Trial;
import org.trebleproof.desktop.work.Workbench;
import org.trebleproof.quantity.Refusal;
import org.trebleproof.shelf.store.ShelfAddress;

/** The one window: the work order leads, the places of the work lie beside it. */
public final class BenchWindow {

  private static final double WIDTH = 1280;
  private static final double HEIGHT = 800;
  private static final int PLACES = 8;

  /** Size of type at 100 % [px]. */
  private static final double TYPE = 14;

  /** Narrower than this many sizes of type, the work order becomes a place of its own. */
  private static final double NARROW = 68;

  private final Stage stage;
  private final Workbench bench;
  private final FileAsker files;
  private final LookFile lookFile;
  private final BorderPane root = new BorderPane();
  private final TabPane places = new TabPane();
  private final Trial trial;
  private final Loudspeaker loudspeaker;
  private final Listening listening;
  private final HeldPlaying playing;
  private final Measuring measuring;
  private final WorkOrder order;
  private final VBox leading = new VBox();
  private final Tab orderTab = new Tab(Texts.of("place.order"));
  private final NextCard next;
  private final RestoreBar restore;
  private final Exports exports;
  private final CoilShelf shelf;
  private final Menu recent = new Menu(Texts.of("menu.recent"));
  private final Menu aside = new Menu(Texts.of("menu.aside"));
  private final MenuItem undo = new MenuItem();
  private final MenuItem redo = new MenuItem();
  private final MenuBar menus;
  private Look look;
  private boolean systemDark;

  /**
   * The window on a stage; it is not shown yet.
   *
   * @param address of the shelf, which is opened when its place is
   * @param open shows a page that was written
   */
  public BenchWindow(
      Stage stage,
      Workbench bench,
      TaskBoard board,
      LatestWins.Pause pause,
      FileAsker files,
      LookFile lookFile,
      SoundSystem sound,
      ShelfAddress address,
      Consumer<Path> open) {
    this.stage = stage;
    this.shelf = new CoilShelf(address, LatestAnswer.oneThread("shelf"), board.screen());
    this.bench = bench;
    this.files = files;
    this.lookFile = lookFile;
    this.look = lookFile.read();
    trial = new Trial(bench, board, pause);
    loudspeaker = new Loudspeaker(board, sound);
    listening = new Listening(board, loudspeaker, pause);
    playing =
        new HeldPlaying(
            board, trial, listening, loudspeaker, LatestAnswer.oneThread("what-if sound"));
    measuring = new Measuring(bench, board, sound);
    exports = new Exports(bench, trial, board, files, version(), open);
    order = new WorkOrder(bench, this::openFiles);
    next = new NextCard(bench);
    restore = new RestoreBar(bench);
    HumVisit visit = new HumVisit(board, pause);
    visit.belongTo(bench, () -> bench.beginNew(freshFolder()));
    fillPlaces(visit);
    root.getStyleClass().add("bench");
    menus = menus();
    root.setTop(new VBox(menus, restore));
    root.setCenter(places);
    root.setBottom(footer(board));
    Scene scene = scene();
    bench.draftProperty().addListener((o, old, now) -> nameStage());
    bench.keptProperty().addListener((o, old, now) -> nameStage());
    dress();
    nameStage();
    stage.setOnShown(
        e -> stage.getIcons().add(new Image(BenchWindow.class.getResourceAsStream("icon.png"))));
    stage.setMinWidth(640);
    stage.setMinHeight(480);
    stage.setScene(scene);
    stage.setOnCloseRequest(e -> confirmTyped());
    stage.setOnHidden(
        e -> {
          silence();
          measuring.stop();
          shelf.close();
        });
  }

  /** The places of the work, and what leads there; each is made when it is first gone to. */
  private void fillPlaces(HumVisit visit) {
    BlindSession blind = new BlindSession(listening, new SecureRandom()::nextLong);
    FirstSheet.Ways ways = new FirstSheet.Ways(this::beginWith, this::openFiles, this::openSample);
    Tab verdict = tab("verdict", () -> new VerdictPlace(bench, new FirstSheet(bench, ways)));
    Tab measure =
        tab(
            "measure",
            () ->
                new MeasurePlace(
                    bench, measuring, this::beginNew, this::openFiles, exports::sweep));
    lookForDevices(measure);
    Tab evidence = tab("evidence", () -> new EvidencePlace(bench));
    Tab whatIf = new Tab();
    Tab listen =
        tab(
            "listen",
            () ->
                new ListenPlace(
                    trial, listening, blind, loudspeaker, files, exports, () -> goTo(whatIf)));
    fill(
        whatIf,
        "whatif",
        () -> new WhatIfPlace(bench, trial, playing, loudspeaker, () -> goTo(listen)));
    Tab silence = tab("hum", () -> new HumPlace(bench, visit, measuring, files, exports::hum));
    lookForDevices(silence);
    whatIf.selectedProperty().addListener((o, was, is) -> playing.stop());
    listen.selectedProperty().addListener((o, was, is) -> listening.stop());
    orderTab.setClosable(false);
    orderTab.setId("place-order");
    places.setTabClosingPolicy(TabPane.TabClosingPolicy.UNAVAILABLE);
    places.getTabs().setAll(verdict); // the first one is shown: no other is made for that
    places.getTabs().add(0, measure);
    places.getTabs().addAll(evidence, whatIf, silence, listen, pageTab(), shelfTab());
    leading.getStyleClass().add("leading");
    lead(NextStep.Action.OPEN, this::openFiles);
    lead(NextStep.Action.FIXTURE, () -> inOrder(order::goToFixture));
    lead(NextStep.Action.PARTS, () -> inOrder(order::goToParts));
    lead(NextStep.Action.CAPTURES, () -> inOrder(order::goToCaptures));
    lead(NextStep.Action.MEASURE, () -> goTo(measure));
    lead(NextStep.Action.WHAT_IF, () -> goTo(whatIf));
  }

  private Tab pageTab() {
    Tab tab = new Tab();
    return fill(
        tab,
        "page",
        () -> {
          PagePlace place = new PagePlace(bench, trial, exports);
          place.drawWhile(tab.selectedProperty());
          return place;
        });
  }

  private Tab shelfTab() {
    Tab tab = tab("shelf", () -> new ShelfPlace(shelf, bench, files, version(), exports::batch));
    tab.selectedProperty()
        .addListener(
            (o, old, now) -> {
              if (now) {
                shelf.look();
              }
            });
    return tab;
  }

  private void lookForDevices(Tab place) {
    place
        .selectedProperty()
        .addListener(
            (o, old, now) -> {
              if (now && measuring.devicesProperty().get().isEmpty()) {
                measuring.look();
              }
            });
  }

  private void goTo(Tab place) {
    places.getSelectionModel().select(place);
  }

  private Scene scene() {
    Scene scene = new Scene(root, WIDTH, HEIGHT);
    scene.getStylesheets().add(BenchWindow.class.getResource("bench.css").toExternalForm());
    scene.addEventFilter(KeyEvent.KEY_PRESSED, this::undoInField);
    scene.addEventFilter(KeyEvent.KEY_PRESSED, this::scaleByKeypad);
    scene.addEventHandler(
        KeyEvent.KEY_PRESSED,
        e -> {
          if (e.getCode() == KeyCode.ESCAPE) {
            silence();
          }
        });
    acceptDrops(scene);
    keepTyped();
    scene.widthProperty().addListener((o, old, now) -> arrange());
    return scene;
  }

  private void quit() {
    confirmTyped();
    stage.close();
  }

  /** What is being typed is confirmed as if its field were left. */
  private void confirmTyped() {
    Node owner = root.getScene().getFocusOwner();
    root.requestFocus();
    if (owner != null) {
      owner.requestFocus();
    }
  }

  /** Ends all that sounds. */
  private void silence() {
    playing.stop();
    listening.stop();
  }

  private static String version() {
    String version = BenchWindow.class.getPackage().getImplementationVersion();
    return version == null ? Texts.of("version.none") : version;
  }

  /** Shows the window. */
  public void show() {
    stage.show();
  }

  /** Takes files as if they had been dropped. */
  public void take(List<Path> dropped) {
    bench.take(dropped);
  }

  /** Offers work that earlier starts left behind; without any the last job is opened again. */
  public void offer(List<KeptSession> left) {
    restore.offer(left);
    if (left.isEmpty()) {
      bench.goOn();
    }
  }

  /** What was typed and not confirmed is kept, and stands in its field again. */
  private void keepTyped() {
    root.addEventHandler(Typed.TYPED, e -> bench.type(e.name(), e.text(), e.open()));
    bench.jobsProperty().addListener(o -> fields().forEach(ValueField::forget));
    bench.draftProperty().addListener(o -> Platform.runLater(this::resumeTyped));
  }

  private List<ValueField> fields() {
    return root.lookupAll(".value-field").stream()
        .filter(ValueField.class::isInstance)
        .map(ValueField.class::cast)
        .toList();
  }

  private void resumeTyped() {
    Map<String, String> typed = bench.typed();
    if (typed.isEmpty()) {
      return;
    }
    List<ValueField> all = fields();
    bench.typedOnlyIn(all.stream().map(ValueField::name).toList());
    for (ValueField field : all) {
      String text = typed.get(field.name());
      if (text != null && !text.equals(field.field().getText())) {
        field.resume(text);
      }
    }
  }

  /** Says whether the system is set to dark. */
  public void setSystemDark(boolean dark) {
    systemDark = dark;
    dress();
  }

  /** Changes the look and keeps it. */
  public void setLook(Look wanted) {
    look = wanted;
    dress();
    try {
      lookFile.write(wanted);
    } catch (Refusal e) {
      bench.say(e.getMessage());
    }
  }

  private static Tab tab(String name, Supplier<Node> content) {
    return fill(new Tab(), name, content);
  }

  /** What is not looked at need not be made, styled and laid out. */
  private static Tab fill(Tab tab, String name, Supplier<Node> content) {
    tab.setText(Texts.of("place." + name));
    tab.selectedProperty()
        .addListener(
            (o, old, now) -> {
              if (now && tab.getContent() == null) {
                tab.setContent(content.get());
              }
            });
    tab.setClosable(false);
    tab.setId("place-" + name);
    return tab;
  }

  private void lead(NextStep.Action action, Runnable there) {
    next.lead(action, there);
  }

  private void inOrder(Runnable there) {
    if (places.getTabs().contains(orderTab)) {
      places.getSelectionModel().select(orderTab);
    }
    there.run();
  }

  /** Puts the work order beside the places, or among them where there is no room. */
  private void arrange() {
    boolean narrow = root.getScene().getWidth() < NARROW * TYPE * look.scale() / 100;
    boolean among = places.getTabs().contains(orderTab);
    if (narrow && root.getLeft() != null || narrow && !among) {
      root.setLeft(null);
      leading.getChildren().clear();
      orderTab.setContent(order);
      places.getTabs().add(0, orderTab);
      next.setAcross(true);
      root.getStyleClass().add("narrow");
      root.setTop(new VBox(menus, restore, next));
    } else if (!narrow && root.getLeft() == null) {
      places.getTabs().remove(orderTab);
      orderTab.setContent(null);
      VBox.setVgrow(order, Priority.ALWAYS);
      next.setAcross(false);
      root.getStyleClass().remove("narrow");
      leading.getChildren().setAll(next, order);
      root.setTop(new VBox(menus, restore));
      root.setLeft(leading);
    }
  }

  /** Gives the window its colours and its size of type. */
  private void dress() {
    boolean dark = look.scheme() == Scheme.DARK || look.scheme() == Scheme.SYSTEM && systemDark;
    root.getStyleClass().removeAll("light", "dark", "contrast");
    root.getStyleClass().add(dark ? "dark" : "light");
    if (look.highContrast()) {
      root.getStyleClass().add("contrast");
    }
    root.setStyle("-fx-font-size: " + TYPE * look.scale() / 100 + "px;");
    arrange();
  }

  private void nameStage() {
    String title =
        bench
            .draftProperty()
            .get()
            .map(d -> (bench.unsaved() ? "• " : "") + d.title() + " – ")
            .orElse("");
    stage.setTitle(title + Texts.of("window.title"));
  }

  /** A new job of today; its folder is made when something is written. */
  private void beginNew() {
    bench.beginNew(freshFolder());
    order.goToFixture();
  }

  private static Path freshFolder() {
    Path home = jobs();
    String today = LocalDate.now().toString();
    Path folder = home.resolve(today);
    for (int n = 2; Files.exists(folder); n++) {
      folder = home.resolve(today + " " + n);
    }
    return folder;
  }

  /** A new job of a way to record that was chosen. */
  private void beginWith(String kind) {
    beginNew();
    bench.edit(Texts.of("edit.fixture"), d -> d.withFixtureKind(kind));
    places.getTabs().stream().filter(t -> "place-measure".equals(t.getId())).forEach(this::goTo);
  }

  private void openSample() {
    try {
      bench.open(SampleJob.in(jobs().resolve(Texts.of("sample.folder"))));
    } catch (Refusal e) {
      bench.say(e.getMessage());
    }
  }

  private static Path jobs() {
    return Path.of(System.getProperty("user.home", "."), Texts.of("draft.folder"));
  }

  private void openFiles() {
    List<Path> chosen = files.toOpen(Texts.of("files.open"));
    if (!chosen.isEmpty()) {
      bench.take(chosen);
    }
  }

  private void acceptDrops(Scene scene) {
    scene.setOnDragOver(
        e -> {
          if (e.getDragboard().hasFiles()) {
            e.acceptTransferModes(TransferMode.COPY);
            root.getStyleClass().remove("dropping");
            root.getStyleClass().add("dropping");
          }
          e.consume();
        });
    scene.setOnDragExited(e -> root.getStyleClass().remove("dropping"));
    scene.setOnDragDropped(
        e -> {
          root.getStyleClass().remove("dropping");
          take(e.getDragboard().getFiles().stream().map(java.io.File::toPath).toList());
          e.setDropCompleted(true);
          e.consume();
        });
  }

  /** Plus stands on another key on every keyboard: with and without Shift, and on the keypad. */
  private void scaleByKeypad(KeyEvent event) {
    if (!event.isShortcutDown()) {
      return;
    }
    switch (event.getCode()) {
      case EQUALS, ADD, PLUS -> scale(Look.STEP);
      case SUBTRACT, MINUS -> scale(-Look.STEP);
      case NUMPAD0 -> setLook(look.withScale(Look.SMALLEST));
      default -> {
        return;
      }
    }
    event.consume();
  }

  /** In a field that is being typed in, undo belongs to the field. */
  private void undoInField(KeyEvent event) {
    if (event.getCode() == KeyCode.Z
        && event.isShortcutDown()
        && event.getTarget() instanceof TextInputControl field
        && !field.isUndoable()) {
      bench.undo();
      event.consume();
    }
  }

  private MenuBar menus() {
    MenuItem fresh = item("menu.new", this::beginNew, shortcut(KeyCode.N));
    MenuItem open = item("menu.open", this::openFiles, shortcut(KeyCode.O));
    open.setId("menu-open");
    MenuItem save =
        item(
            "menu.save",
            () -> {
              confirmTyped();
              exports.saveJob(false);
            },
            shortcut(KeyCode.S));
    MenuItem saveAs = item("menu.save.as", () -> exports.saveJob(true), shortcutShift(KeyCode.S));
    MenuItem page = item("menu.page", () -> exports.page(false), shortcut(KeyCode.P));
    MenuItem quit = item("menu.quit", this::quit, shortcut(KeyCode.Q));
    Menu job = new Menu(Texts.of("menu.job"));
    job.getItems()
        .addAll(
            fresh,
            open,
            recent,
            aside,
            new SeparatorMenuItem(),
            save,
            saveAs,
            page,
            new SeparatorMenuItem(),
            quit);
    recent.setOnShowing(e -> listRecent());
    listRecentLater();
    job.setOnShowing(
        e -> {
          listRecent();
          listAside();
        });
    aside.getItems().setAll(new MenuItem(Texts.of("menu.recent.none")));
    Runnable usable =
        () -> {
          boolean nothing = bench.draftProperty().get().isEmpty();
          save.setDisable(nothing);
          saveAs.setDisable(nothing);
          page.setDisable(bench.verdictProperty().get().isEmpty());
        };
    bench.draftProperty().addListener(o -> usable.run());
    bench.verdictProperty().addListener(o -> usable.run());
    usable.run();
    undo.setAccelerator(shortcut(KeyCode.Z));
    undo.setOnAction(e -> bench.undo());
    redo.setAccelerator(shortcutShift(KeyCode.Z));
    redo.setOnAction(e -> bench.redo());
    undo.setId("menu-undo");
    bench.undoWordsProperty().addListener((o, old, now) -> nameUndo());
    bench.redoWordsProperty().addListener((o, old, now) -> nameUndo());
    nameUndo();
    Menu edit = new Menu(Texts.of("menu.edit"));
    edit.getItems().addAll(undo, redo);
    Menu view = new Menu(Texts.of("menu.view"));
    view.getItems().addAll(schemes());
    view.getItems().add(new SeparatorMenuItem());
    CheckMenuItem contrast = new CheckMenuItem(Texts.of("menu.contrast"));
    contrast.setSelected(look.highContrast());
    contrast.setOnAction(e -> setLook(look.withContrast(contrast.isSelected())));
    view.getItems()
        .addAll(
            contrast,
            item("menu.larger", () -> scale(Look.STEP), shortcut(KeyCode.PLUS)),
            item("menu.smaller", () -> scale(-Look.STEP), shortcut(KeyCode.MINUS)),
            item(
                "menu.usual",
                () -> setLook(look.withScale(Look.SMALLEST)),
                shortcut(KeyCode.DIGIT0)));
    Menu go = new Menu(Texts.of("menu.go"));
    for (int i = 0; i < PLACES; i++) {
      int index = i;
      MenuItem there =
          item(
              "menu.place." + i,
              () -> goTo(index),
              shortcut(KeyCode.values()[KeyCode.DIGIT1.ordinal() + i]));
      go.getItems().add(there);
    }
    Menu help = new Menu(Texts.of("menu.help"));
    MenuItem guide =
        item(
            "menu.guide",
            () -> read(() -> GuideWindow.show(stage)),
            new KeyCodeCombination(KeyCode.F1));
    guide.setId("menu-guide");
    MenuItem about = new MenuItem(Texts.of("menu.about"));
    about.setId("menu-about");
    about.setOnAction(e -> read(() -> GuideWindow.about(stage, version())));
    help.getItems().addAll(guide, about);
    return new MenuBar(job, edit, view, go, help);
  }

  private void read(Runnable open) {
    try {
      open.run();
    } catch (Refusal e) {
      bench.say(e.getMessage());
    }
  }

  private void goTo(int index) {
    List<Tab> some = places.getTabs().stream().filter(t -> t != orderTab).toList();
    places.getSelectionModel().select(some.get(index));
  }

  private void scale(int by) {
    setLook(look.withScale(look.scale() + by));
  }

  private List<MenuItem> schemes() {
    ToggleGroup one = new ToggleGroup();
    List<MenuItem> items = new ArrayList<>();
    for (Scheme scheme : Scheme.values()) {
      RadioMenuItem item =
          new RadioMenuItem(
              Texts.of("menu.scheme." + scheme.name().toLowerCase(java.util.Locale.ROOT)));
      item.setToggleGroup(one);
      item.setSelected(look.scheme() == scheme);
      item.setOnAction(e -> setLook(look.with(scheme)));
      items.add(item);
    }
    return items;
  }

  private void nameUndo() {
    Optional<String> back = bench.undoWordsProperty().get();
    Optional<String> again = bench.redoWordsProperty().get();
    undo.setDisable(back.isEmpty());
    redo.setDisable(again.isEmpty());
    undo.setText(back.map(w -> Texts.of("menu.undo.of", w)).orElse(Texts.of("menu.undo")));
    redo.setText(again.map(w -> Texts.of("menu.redo.of", w)).orElse(Texts.of("menu.redo")));
  }

  private void listRecentLater() {
    recent.getItems().setAll(new MenuItem(Texts.of("menu.recent.none")));
  }

  private void listRecent() {
    List<RecentJobs.Entry> jobs = bench.recentEntries();
    if (jobs.isEmpty()) {
      listRecentLater();
      recent.getItems().get(0).setDisable(true);
      return;
    }
    recent.getItems().clear();
    for (RecentJobs.Entry job : jobs) {
      MenuItem item = new MenuItem(Texts.of("recent.of", job.title(), FirstSheet.day(job.when())));
      item.setMnemonicParsing(false);
      item.setOnAction(e -> bench.open(job.file()));
      recent.getItems().add(item);
    }
  }

  /** What was set aside can be got back. */
  private void listAside() {
    aside.getItems().clear();
    for (KeptSession session : bench.setAside()) {
      MenuItem item =
          new MenuItem(
              Texts.of("recent.of", session.draft().title(), FirstSheet.day(session.when())));
      item.setMnemonicParsing(false);
      item.setOnAction(e -> bench.takeUp(session));
      aside.getItems().add(item);
    }
    if (aside.getItems().isEmpty()) {
      aside.getItems().add(new MenuItem(Texts.of("menu.recent.none")));
      aside.getItems().get(0).setDisable(true);
    }
  }

  private static MenuItem item(String key, Runnable action, KeyCombination keys) {
    MenuItem item = new MenuItem(Texts.of(key));
    item.setAccelerator(keys);
    item.setOnAction(e -> action.run());
    return item;
  }

  private static KeyCombination shortcut(KeyCode code) {
    return new KeyCodeCombination(code, KeyCombination.SHORTCUT_DOWN);
  }

  private static KeyCombination shortcutShift(KeyCode code) {
    return new KeyCodeCombination(code, KeyCombination.SHORTCUT_DOWN, KeyCombination.SHIFT_DOWN);
  }

  /** The line below stays as it is; what is to be said stands on a line of its own above it. */
  private VBox footer(TaskBoard board) {
    Label notice = new Label();
    notice.setId("notice");
    notice.setWrapText(true);
    notice.setMinHeight(Region.USE_PREF_SIZE);
    Button heard = new Button("×");
    heard.getStyleClass().add("remove");
    heard.setMinWidth(Region.USE_PREF_SIZE);
    heard.setAccessibleText(Texts.of("notice.heard"));
    heard.setTooltip(new Tooltip(Texts.of("notice.heard")));
    heard.setOnAction(e -> bench.heard());
    HBox said = new HBox(notice, heard);
    said.getStyleClass().add("notice-line");
    said.setVisible(false);
    said.managedProperty().bind(said.visibleProperty());
    Label kept = new Label();
    kept.setId("kept");
    kept.getStyleClass().add("faint");
    kept.setMinWidth(Region.USE_PREF_SIZE);
    Region between = new Region();
    HBox.setHgrow(between, Priority.ALWAYS);
    bench
        .noticeProperty()
        .addListener(
            (o, old, now) -> {
              notice.setText(now.orElse(""));
              said.setVisible(now.isPresent());
            });
    Runnable tell = () -> kept.setText(keptWords(bench.keptProperty().get()));
    bench.keptProperty().addListener((o, old, now) -> tell.run());
    bench.draftProperty().addListener((o, old, now) -> tell.run());
    HBox footer = new HBox(kept, between, new TaskStrip(board));
    footer.getStyleClass().add("footer");
    return new VBox(said, footer);
  }

  private String keptWords(Optional<Instant> when) {
    if (bench.draftProperty().get().isEmpty()) {
      return "";
    }
    if (!bench.unsaved()) {
      boolean filed = bench.draftProperty().get().get().filed();
      return Texts.of(filed ? "kept.saved" : "kept.new");
    }
    return when.map(
            w ->
                Texts.of(
                    "kept.at",
                    DateTimeFormatter.ofPattern("HH:mm:ss")
                        .format(w.atZone(ZoneId.systemDefault()))))
        .orElse(Texts.of("kept.not.yet"));
  }
}
