package org.trebleproof.desktop.guide;

import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import javafx.scene.control.Label;
import javafx.scene.layout.GridPane;
import javafx.scene.layout.Priority;
import javafx.scene.layout.Region;
import javafx.scene.layout.VBox;

/**
 * A page of the guide set as text: headings, paragraphs, lists, tables and blocks of what is typed.
 * It knows as much of Markdown as the guide uses.
 */
final class MarkdownSheet extends VBox {

  private static final Pattern LINK = Pattern.compile("!?\\[([^\\]]*)\\]\\([^)]*\\)");

  private final List<String> paragraph = new ArrayList<>();
  private final List<String> table = new ArrayList<>();

  MarkdownSheet(String text) {
    getStyleClass().add("page");
    boolean code = false;
    List<String> typed = new ArrayList<>();
    for (String line : text.lines().toList()) {
      if (line.startsWith("```")) {
        if (code) {
          add(String.join("\n", typed), "typed");
          typed.clear();
        } else {
          end();
        }
        code = !code;
      } else if (code) {
        typed.add(line);
      } else {
        take(line);
      }
    }
    end();
  }

  private void take(String line) {
    if (line.startsWith("|")) {
      endParagraph();
      table.add(line);
      return;
    }
    endTable();
    if (line.startsWith("#")) {
      endParagraph();
      add(plain(line.replaceFirst("#+\\s*", "")), line.startsWith("# ") ? "lead" : "heading");
    } else if (line.isBlank()) {
      endParagraph();
    } else if (line.startsWith("![")) {
      endParagraph();
    } else if (line.matches("\\s*([-*]|\\d+\\.) .*")) {
      endParagraph();
      paragraph.add(line.strip().replaceFirst("^[-*] ", "· "));
    } else {
      paragraph.add(line.strip());
    }
  }

  private void end() {
    endParagraph();
    endTable();
  }

  private void endParagraph() {
    if (!paragraph.isEmpty()) {
      add(plain(String.join(" ", paragraph)), "words");
      paragraph.clear();
    }
  }

  private void endTable() {
    if (table.isEmpty()) {
      return;
    }
    GridPane grid = new GridPane();
    grid.getStyleClass().add("estimates");
    int line = 0;
    for (String row : table) {
      if (row.matches("[|\\-: ]+")) {
        continue;
      }
      String[] cells = row.substring(1).split("(?<!\\\\)\\|");
      for (int c = 0; c < cells.length; c++) {
        Label cell = label(plain(cells[c].strip()), line == 0 ? "faint" : "words");
        GridPane.setHgrow(cell, Priority.SOMETIMES);
        grid.add(cell, c, line);
      }
      line++;
    }
    getChildren().add(grid);
    table.clear();
  }

  private void add(String words, String style) {
    getChildren().add(label(words, style));
  }

  private static Label label(String words, String style) {
    Label label = new Label(words);
    label.getStyleClass().add(style);
    label.setWrapText(true);
    label.setMinHeight(Region.USE_PREF_SIZE);
    return label;
  }

  /** A line without the marks of its setting. */
  private static String plain(String line) {
    Matcher link = LINK.matcher(line);
    return link.replaceAll("$1").replace("**", "").replace("`", "").replace("\\|", "|");
  }
}
