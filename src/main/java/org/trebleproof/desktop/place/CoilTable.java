package org.trebleproof.desktop.place;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import javafx.beans.property.ReadOnlyObjectWrapper;
import javafx.beans.property.ReadOnlyStringWrapper;
import javafx.collections.FXCollections;
import javafx.scene.control.Label;
import javafx.scene.control.SelectionMode;
import javafx.scene.control.TableCell;
import javafx.scene.control.TableColumn;
import javafx.scene.control.TableRow;
import javafx.scene.control.TableView;
import javafx.scene.control.Tooltip;
import javafx.scene.input.ClipboardContent;
import javafx.scene.input.TransferMode;
import org.trebleproof.desktop.place.piece.SmallCurve;
import org.trebleproof.desktop.text.Texts;
import org.trebleproof.desktop.work.CoilShelf;
import org.trebleproof.quantity.EstimateText;
import org.trebleproof.report.words.ShelfTable;
import org.trebleproof.shelf.item.CoilQuery;
import org.trebleproof.shelf.item.CoilQuery.TextColumn;
import org.trebleproof.shelf.item.CoilState;
import org.trebleproof.shelf.item.CoilValue;
import org.trebleproof.shelf.item.ShelvedCoil;

/** Coils in rows, each with its curve; only the rows in sight are made. */
final class CoilTable extends TableView<ShelvedCoil> {

  /** Height of a row, in sizes of type. */
  private static final double ROW = 2.3;

  private static final double CURVE = 7.6;
  private static final double NAME = 8;
  private static final double VALUE = 10;
  private static final double WORDS = 8.2;

  private final CoilShelf shelf;
  private final Label ruler;

  /**
   * A table.
   *
   * @param ruler has the size of type that the widths go by
   */
  CoilTable(CoilShelf shelf, Label ruler) {
    this.shelf = shelf;
    this.ruler = ruler;
    setId("shelf-table");
    getStyleClass().add("coil-table");
    setAccessibleText(Texts.of("shelf.table"));
    setPlaceholder(new Label(Texts.of("shelf.none.left")));
    getSelectionModel().setSelectionMode(SelectionMode.MULTIPLE);
    TableColumn<ShelvedCoil, ShelvedCoil> curve = new TableColumn<>(Texts.of("shelf.curve"));
    curve.setCellValueFactory(c -> new ReadOnlyObjectWrapper<>(c.getValue()));
    curve.setCellFactory(c -> new SmallCurve(shelf::curve));
    curve.setSortable(false);
    add(curve, CURVE);
    add(words("coil", ShelvedCoil::name, TextColumn.NAME), NAME);
    for (CoilValue value : ShelfTable.VALUES) {
      add(value(value), VALUE);
    }
    add(words("verdict", c -> c.state().word(), TextColumn.VERDICT), WORDS);
    add(words("recipe", ShelvedCoil::recipe, TextColumn.RECIPE), WORDS);
    add(words("bench", c -> c.circumstances().bench(), TextColumn.BENCH), WORDS);
    add(words("date", c -> c.circumstances().date(), TextColumn.DATE), WORDS);
    setRowFactory(t -> new CoilRow());
    setSortPolicy(
        t -> {
          sortBy();
          return true;
        });
    fixedCellSizeProperty()
        .bind(
            javafx.beans.binding.Bindings.createDoubleBinding(
                () -> Math.ceil(ROW * ruler.getFont().getSize()), ruler.fontProperty()));
    shelf.shownProperty().addListener((o, old, now) -> show(now.coils()));
    show(shelf.shownProperty().get().coils());
  }

  /** What was chosen stays so where it is left; one change for all of it. */
  private void show(List<ShelvedCoil> coils) {
    Set<String> chosen =
        getSelectionModel().getSelectedItems().stream()
            .map(ShelvedCoil::measurement)
            .collect(Collectors.toSet());
    setItems(FXCollections.observableArrayList(coils));
    int[] still =
        IntStream.range(0, coils.size())
            .filter(i -> chosen.contains(coils.get(i).measurement()))
            .toArray();
    if (still.length > 0) {
      getSelectionModel().selectIndices(still[0], Arrays.copyOfRange(still, 1, still.length));
    }
  }

  private void add(TableColumn<ShelvedCoil, ?> column, double width) {
    column.setReorderable(false);
    column
        .prefWidthProperty()
        .bind(
            javafx.beans.binding.Bindings.createDoubleBinding(
                () -> width * ruler.getFont().getSize(), ruler.fontProperty()));
    column.setResizable(true);
    getColumns().add(column);
  }

  private TableColumn<ShelvedCoil, String> words(
      String head, Function<ShelvedCoil, String> text, TextColumn by) {
    TableColumn<ShelvedCoil, String> column = new TableColumn<>(head);
    column.setCellValueFactory(c -> new ReadOnlyStringWrapper(text.apply(c.getValue())));
    column.setUserData(by);
    return column;
  }

  private TableColumn<ShelvedCoil, String> value(CoilValue value) {
    TableColumn<ShelvedCoil, String> column = new TableColumn<>(value.head());
    column.setCellValueFactory(
        c ->
            new ReadOnlyStringWrapper(
                c.getValue().value(value).map(EstimateText::full).orElse("")));
    column.setCellFactory(c -> new NumberCell());
    column.setUserData(value);
    return column;
  }

  /** The order of the store's words, in which "grey 10" follows "grey 9". */
  private void sortBy() {
    if (getSortOrder().isEmpty()) {
      shelf.sort(CoilQuery.Order.BY_NAME);
      return;
    }
    TableColumn<ShelvedCoil, ?> first = getSortOrder().get(0);
    boolean backwards = first.getSortType() == TableColumn.SortType.DESCENDING;
    shelf.sort(
        first.getUserData() instanceof CoilValue value
            ? new CoilQuery.Order(Optional.of(value), Optional.empty(), backwards)
            : new CoilQuery.Order(
                Optional.empty(), Optional.of((TextColumn) first.getUserData()), backwards));
  }

  /** A value to the right. */
  private static final class NumberCell extends TableCell<ShelvedCoil, String> {
    NumberCell() {
      getStyleClass().add("coil-number");
    }

    @Override
    protected void updateItem(String text, boolean empty) {
      super.updateItem(text, empty);
      setText(empty ? null : text);
    }
  }

  /** A row that can be drawn onto another to compare the two. */
  private final class CoilRow extends TableRow<ShelvedCoil> {

    CoilRow() {
      setOnDragDetected(
          e -> {
            if (getItem() != null) {
              ClipboardContent name = new ClipboardContent();
              name.putString(getItem().name());
              startDragAndDrop(TransferMode.LINK).setContent(name);
              e.consume();
            }
          });
      setOnDragOver(
          e -> {
            if (e.getGestureSource() instanceof CoilRow other && other != this) {
              e.acceptTransferModes(TransferMode.LINK);
              e.consume();
            }
          });
      setOnDragDropped(
          e -> {
            if (e.getGestureSource() instanceof CoilRow other) {
              getSelectionModel().clearSelection();
              getSelectionModel().select(other.getIndex());
              getSelectionModel().select(getIndex());
              e.setDropCompleted(true);
              e.consume();
            }
          });
    }

    @Override
    protected void updateItem(ShelvedCoil coil, boolean empty) {
      super.updateItem(coil, empty);
      boolean good = coil == null || empty || coil.state() == CoilState.GOOD;
      getStyleClass().remove("not-good");
      if (!good) {
        getStyleClass().add("not-good");
      }
      setTooltip(good || coil.reason().isEmpty() ? null : new Tooltip(coil.reason()));
    }
  }
}
