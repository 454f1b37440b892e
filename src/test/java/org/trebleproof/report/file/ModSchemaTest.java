package org.trebleproof.report.file;

import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.InputStream;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.trebleproof.bench.job.Layout;
import org.trebleproof.bench.job.PlanReader;
import org.trebleproof.bench.mod.explain.Explainer;
import org.trebleproof.bench.mod.guitar.SignalChain;
import org.trebleproof.bench.mod.guitar.TypedCoil;
import org.trebleproof.bench.mod.identify.CoilIdentifier;
import org.trebleproof.bench.mod.listen.BlindTest;
import org.trebleproof.bench.mod.listen.Rendering;
import org.trebleproof.bench.mod.predict.Predictor;
import org.trebleproof.bench.mod.search.PartsSearch;
import org.trebleproof.bench.mod.search.Target;
import org.trebleproof.quantity.MarkedQuantity;
import org.trebleproof.quantity.TradeNotation;

/** What comes before soldering follows its published schema. */
class ModSchemaTest {
  private final ObjectMapper mapper = new ObjectMapper();

  private static SignalChain guitar() {
    Map<String, TypedCoil> coils = new LinkedHashMap<>();
    for (String name : List.of("bridge", "neck")) {
      coils.put(
          name,
          new TypedCoil(
              TradeNotation.marking("2.4", MarkedQuantity.COIL_INDUCTANCE),
              TradeNotation.marking("5.7k", MarkedQuantity.PICKUP_RESISTANCE),
              TradeNotation.marking("120p", MarkedQuantity.WINDING_CAPACITANCE),
              Optional.of(TradeNotation.marking("800k", MarkedQuantity.LOSS_RESISTANCE))));
    }
    return TypedCoil.guitar(
        coils,
        PlanReader.parsed(List.of("volume=250k,tone=250k,toneCapacitor=22n,cable=500p,input=1M")));
  }

  @Test
  void resultsFollowTheSchema() throws IOException {
    SchemaCheck schema;
    try (InputStream in =
        getClass().getResourceAsStream("/org/trebleproof/before-soldering.schema.json")) {
      schema = new SchemaCheck(mapper.readTree(in));
    }
    SignalChain chain = guitar();
    Layout now = chain.layout(Optional.empty());
    for (String change : List.of("volume=1M", "tap=on,loadCapacitor=9n", "toneRotation=0")) {
      SignalChain both = chain.with("then", now, PlanReader.parsed(List.of(change)));
      Layout then = both.layouts().get("then");
      schema.checkAs(
          "predict",
          mapper.readTree(PredictionJson.text(new Predictor(both, now, then, 200).predict())));
      Rendering sounds = Rendering.of(both, now, then, Optional.empty(), true);
      schema.checkAs(
          "listen", mapper.readTree(ListeningJson.text("Changed.", sounds, Optional.empty())));
      schema.checkAs(
          "listen",
          mapper.readTree(
              ListeningJson.text(
                  "Changed.", sounds, Optional.of(new BlindTest.Score(9, 10, 0.010742)))));
    }
    schema.checkAs(
        "explain",
        mapper.readTree(ExplanationJson.text(new Explainer(chain, now, 2000, 5000).explain())));
    schema.checkAs(
        "findParts",
        mapper.readTree(
            FoundPartsJson.text(
                new PartsSearch(chain, now, new Target.Peak(3000, Optional.empty()), 1).find())));
    for (Optional<String> other : List.of(Optional.of("neck"), Optional.<String>empty())) {
      schema.checkAs(
          "identify",
          mapper.readTree(
              IdentityJson.text(
                  new CoilIdentifier(chain, "bridge", 20, Optional.empty()).identify(other))));
    }
  }
}
