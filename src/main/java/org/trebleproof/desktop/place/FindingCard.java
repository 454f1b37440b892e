package org.trebleproof.desktop.place;

import java.util.Locale;
import javafx.scene.layout.VBox;
import org.trebleproof.desktop.text.Texts;
import org.trebleproof.quantity.Finding;
import org.trebleproof.report.Sentence;

/** Something a person should be told: how grave, what, why, and what to do. */
final class FindingCard extends VBox {

  FindingCard(Finding finding) {
    getStyleClass().addAll("card", finding.severity().word());
    String severity = finding.severity().name().toLowerCase(Locale.ROOT);
    getChildren().add(Ink.styled(Texts.of("finding." + severity), "severity"));
    getChildren().add(Ink.text(Sentence.of(finding.text())));
    if (!finding.evidence().isBlank()) {
      getChildren().add(Ink.faint(Sentence.of(finding.evidence()).strip()));
    }
    if (!finding.next().isBlank()) {
      getChildren().add(Ink.text(Texts.of("finding.next", Sentence.of(finding.next()))));
    }
  }
}
