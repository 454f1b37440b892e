package org.trebleproof.desktop.place.piece;

import java.util.Locale;
import javafx.scene.layout.VBox;
import org.trebleproof.desktop.text.Texts;
import org.trebleproof.quantity.Finding;
import org.trebleproof.report.words.Sentence;

/** Something a person should be told: how grave, what, why, and what to do. */
public final class FindingCard extends VBox {

  public FindingCard(Finding finding) {
    getStyleClass().addAll("card", finding.severity().word());
    String severity = finding.severity().name().toLowerCase(Locale.ROOT);
    getChildren().add(Lettering.styled(Texts.of("finding." + severity), "severity"));
    getChildren().add(Lettering.text(Sentence.of(finding.text())));
    if (!finding.evidence().isBlank()) {
      getChildren().add(Lettering.faint(Sentence.of(finding.evidence()).strip()));
    }
    if (!finding.next().isBlank()) {
      getChildren().add(Lettering.text(Texts.of("finding.next", Sentence.of(finding.next()))));
    }
  }
}
