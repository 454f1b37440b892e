package org.trebleproof.report.file;

import java.util.LinkedHashMap;
import java.util.Map;
import org.trebleproof.bench.mod.search.FoundParts;
import org.trebleproof.report.words.FoundPartsText;

/** Found parts, for another program. */
public final class FoundPartsJson {

  private FoundPartsJson() {}

  /** All of it for another program. */
  public static String text(FoundParts found) {
    return JsonTree.text(
        JsonTree.object(
            "trebleproof",
            1,
            "title",
            found.title(),
            "verdict",
            FoundPartsText.headline(found),
            "target",
            found.target(),
            "tried",
            found.tried(),
            "options",
            found.options().stream()
                .map(
                    o -> {
                      Map<String, Object> parts = new LinkedHashMap<>();
                      o.parts().forEach((slot, value) -> parts.put(slot.key(), value));
                      return JsonTree.object(
                          "parts",
                          parts,
                          "changes",
                          o.changes(),
                          "wiring",
                          o.wiring(),
                          "distance",
                          o.distance(),
                          "nineInTenWithin",
                          o.unlucky(),
                          "resonance",
                          o.resonance().map(JsonTree::of),
                          "peak",
                          o.peak().map(JsonTree::of));
                    })
                .toList(),
            "findings",
            JsonTree.of(found.findings())));
  }
}
