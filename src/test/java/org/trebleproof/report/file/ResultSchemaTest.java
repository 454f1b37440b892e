package org.trebleproof.report.file;

import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.InputStream;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.trebleproof.bench.answer.FitResult;
import org.trebleproof.report.ExampleResults;

/** Result files follow the published schema, as far as it uses these few words. */
class ResultSchemaTest {

  private final ObjectMapper mapper = new ObjectMapper();

  @Test
  void resultsFollowTheSchema() throws IOException {
    SchemaCheck schema;
    try (InputStream in = getClass().getResourceAsStream("/org/trebleproof/result.schema.json")) {
      schema = new SchemaCheck(mapper.readTree(in));
    }
    for (FitResult result :
        List.of(ExampleResults.potSwap(), ExampleResults.bareCoil(), ExampleResults.refused())) {
      schema.check(mapper.readTree(ResultJson.of(result)), "result");
    }
  }
}
