package org.trebleproof.desktop.place.piece;

import javafx.scene.layout.VBox;
import org.trebleproof.desktop.text.Texts;
import org.trebleproof.quantity.Finding;
import org.trebleproof.report.words.Sentence;

/** Something a person should be told: how grave, what, why, and what to do. */
public final class FindingCard extends VBox {

  public FindingCard(Finding finding) {
    getStyleClass().addAll("card", finding.severity().word());
    getChildren().add(Lettering.styled(finding.severity().label(), "severity"));
    getChildren().add(Lettering.text(Sentence.of(finding.text())));
    if (!finding.evidence().isBlank()) {
      getChildren().add(Lettering.faint(Sentence.of(finding.evidence()).strip()));
    }
    if (!finding.next().isBlank()) {
      getChildren().add(Lettering.text(Texts.of("finding.next", Sentence.of(finding.next()))));
    }
  }
}
