package org.trebleproof.report.file;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.util.DefaultPrettyPrinter;
import java.io.IOException;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.util.List;
import java.util.Optional;
import org.trebleproof.bench.answer.Budget;
import org.trebleproof.bench.answer.FitResult;
import org.trebleproof.bench.answer.PartReading;
import org.trebleproof.bench.answer.Rows;
import org.trebleproof.bench.answer.TrebleLoss;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.Finding;
import org.trebleproof.quantity.RowKey;
import org.trebleproof.report.words.Headline;
import org.trebleproof.report.words.TrebleText;

/**
 * The result file: every number with its bounds, its unit and how it is known, in SI units. A
 * withdrawn estimate keeps its row, with nulls; an open bound is null.
 */
public final class ResultJson {

  /** Version of the file's layout. */
  public static final int LAYOUT = 1;

  private ResultJson() {}

  /** The result file's text, ending in a line feed. */
  public static String of(FitResult result) {
    StringWriter text = new StringWriter(1 << 16);
    try (JsonGenerator json = new JsonFactory().createGenerator(text)) {
      json.setPrettyPrinter(new DefaultPrettyPrinter());
      json.writeStartObject();
      json.writeNumberField("trebleproof", LAYOUT);
      json.writeStringField("title", result.job().title());
      json.writeStringField("verdict", result.verdict().standing().word());
      json.writeStringField("headline", Headline.of(result));
      writeModel(json, result.model());
      writeEstimates(json, result.rows());
      writeParts(json, result);
      if (result.difference().isPresent()) {
        writeDifference(json, result.difference().get());
      }
      writeTrebleLoss(json, result.treble());
      writeFindings(json, result.findings());
      writeAdvice(json, result.advice());
      writeBudgets(json, result.budgets());
      if (result.strikes().isPresent()) {
        StrikesJson.write(json, result.strikes().get());
      } else {
        writeCaptures(json, result.captures());
      }
      json.writeEndObject();
      json.writeRaw('\n');
    } catch (IOException impossible) {
      throw new UncheckedIOException(impossible); // a StringWriter does not fail
    }
    return text.toString();
  }

  private static void writeModel(JsonGenerator json, Optional<FitResult.ModelChoice> model)
      throws IOException {
    json.writeFieldName("model");
    if (model.isEmpty()) {
      json.writeNull();
      return;
    }
    json.writeStartObject();
    json.writeStringField("name", model.get().name());
    writeNumber(json, "reducedChiSquare", model.get().reducedChiSquare());
    json.writeArrayFieldStart("alternatives");
    for (FitResult.ModelChoice.Alternative alternative : model.get().alternatives()) {
      json.writeStartObject();
      json.writeStringField("name", alternative.name());
      writeNumber(json, "deltaCriterion", alternative.deltaCriterion());
      json.writeEndObject();
    }
    json.writeEndArray();
    json.writeEndObject();
  }

  private static void writeEstimates(JsonGenerator json, Rows rows) throws IOException {
    json.writeArrayFieldStart("estimates");
    for (FitResult.Row row : rows) {
      json.writeStartObject();
      json.writeStringField("key", row.key().text());
      json.writeStringField("unit", row.unit().code());
      if (row.estimate().isPresent()) {
        writeBounds(json, row.estimate().get());
      } else {
        json.writeNullField("value");
        json.writeNullField("low");
        json.writeNullField("high");
        json.writeNullField("known");
      }
      json.writeEndObject();
    }
    json.writeEndArray();
  }

  private static void writeBounds(JsonGenerator json, Estimate estimate) throws IOException {
    writeNumber(json, "value", estimate.value());
    writeNumber(json, "low", estimate.low());
    writeNumber(json, "high", estimate.high());
    json.writeStringField("known", estimate.known().word());
  }

  /** What each part reads beside its marking. */
  private static void writeParts(JsonGenerator json, FitResult result) throws IOException {
    json.writeArrayFieldStart("parts");
    for (String name : result.job().parts().keySet()) {
      Optional<PartReading> reading = PartReading.of(result, name);
      if (reading.isPresent()) {
        json.writeStartObject();
        json.writeStringField("name", name);
        writeNumber(json, "marked", reading.get().marking().value());
        writeNumber(json, "tolerance", reading.get().marking().tolerance());
        json.writeBooleanField("toleranceStated", reading.get().marking().stated());
        json.writeStringField("conformity", reading.get().conformity().word());
        if (reading.get().measured().isPresent()) {
          json.writeObjectFieldStart("withoutMarking");
          writeBounds(json, reading.get().measured().get());
          json.writeEndObject();
        }
        json.writeEndObject();
      }
    }
    json.writeEndArray();
  }

  private static void writeDifference(JsonGenerator json, FitResult.DifferenceCurve difference)
      throws IOException {
    json.writeObjectFieldStart("difference");
    json.writeStringField("from", difference.from());
    json.writeStringField("to", difference.to());
    json.writeBooleanField("coilFree", difference.coilFree());
    writeNumbers(json, "hz", difference.hz());
    writeNumbers(json, "dB", difference.decibel());
    writeNumbers(json, "low", difference.low());
    writeNumbers(json, "high", difference.high());
    json.writeEndObject();
  }

  private static void writeTrebleLoss(JsonGenerator json, List<TrebleLoss> losses)
      throws IOException {
    json.writeArrayFieldStart("trebleLoss");
    for (TrebleLoss loss : losses) {
      json.writeStartObject();
      json.writeStringField("setup", loss.wiring());
      json.writeStringField("against", loss.against());
      writeNumber(json, "hz", loss.hz());
      json.writeStringField("text", TrebleText.sentence(loss));
      json.writeArrayFieldStart("shares");
      for (TrebleLoss.Share share : loss.shares()) {
        writeShare(json, share.name(), share.there(), share.heard());
      }
      json.writeEndArray();
      json.writeFieldName("all");
      writeShare(json, "all together", loss.there(), loss.heard());
      json.writeEndObject();
    }
    json.writeEndArray();
  }

  private static void writeShare(JsonGenerator json, String load, Estimate there, Estimate heard)
      throws IOException {
    json.writeStartObject();
    json.writeStringField("load", load);
    json.writeStringField("unit", there.unit().code());
    writeBounds(json, there);
    json.writeObjectFieldStart("heard");
    writeBounds(json, heard);
    json.writeEndObject();
    json.writeEndObject();
  }

  private static void writeFindings(JsonGenerator json, List<Finding> findings) throws IOException {
    json.writeArrayFieldStart("findings");
    for (Finding finding : findings) {
      json.writeStartObject();
      json.writeStringField("severity", finding.severity().word());
      json.writeStringField("code", finding.code().key());
      json.writeStringField("text", finding.text());
      json.writeStringField("evidence", finding.evidence());
      json.writeStringField("next", finding.next());
      json.writeArrayFieldStart("keys");
      for (RowKey key : finding.keys()) {
        json.writeString(key.text());
      }
      json.writeEndArray();
      json.writeEndObject();
    }
    json.writeEndArray();
  }

  private static void writeAdvice(JsonGenerator json, List<FitResult.Advice> advice)
      throws IOException {
    json.writeArrayFieldStart("advice");
    for (FitResult.Advice item : advice) {
      json.writeStartObject();
      json.writeStringField("text", item.text());
      json.writeStringField("key", item.key().text());
      writeNumber(json, "now", item.now());
      writeNumber(json, "then", item.then());
      json.writeEndObject();
    }
    json.writeEndArray();
  }

  private static void writeBudgets(JsonGenerator json, List<Budget> budgets) throws IOException {
    json.writeArrayFieldStart("uncertainty");
    for (Budget budget : budgets) {
      json.writeStartObject();
      json.writeStringField("key", budget.key());
      json.writeStringField("unit", budget.unit().code());
      writeNumber(json, "standardUncertainty", budget.uncertainty());
      json.writeArrayFieldStart("shares");
      for (Budget.Share share : budget.shares()) {
        json.writeStartObject();
        json.writeStringField("source", share.origin().source().code());
        if (!share.origin().part().isEmpty()) {
          json.writeStringField("part", share.origin().part());
        }
        writeNumber(json, "share", share.share());
        json.writeEndObject();
      }
      json.writeEndArray();
      json.writeEndObject();
    }
    json.writeEndArray();
  }

  private static void writeCaptures(JsonGenerator json, List<FitResult.CaptureFit> captures)
      throws IOException {
    json.writeArrayFieldStart("captures");
    for (FitResult.CaptureFit capture : captures) {
      json.writeStartObject();
      json.writeStringField("id", capture.id());
      json.writeStringField("setup", capture.setup());
      json.writeStringField("sha256", capture.sha256());
      writeNumber(json, "sampleRate", capture.sampleRate());
      json.writeNumberField("bits", capture.bits());
      json.writeNumberField("sweeps", capture.sweeps());
      json.writeEndObject();
    }
    json.writeEndArray();
  }

  static void writeNumbers(JsonGenerator json, String name, double[] values) throws IOException {
    json.writeArrayFieldStart(name);
    for (double value : values) {
      if (Double.isFinite(value)) {
        json.writeNumber(value);
      } else {
        json.writeNull();
      }
    }
    json.writeEndArray();
  }

  static void writeNumber(JsonGenerator json, String name, double value) throws IOException {
    if (Double.isFinite(value)) {
      json.writeNumberField(name, value);
    } else {
      json.writeNullField(name);
    }
  }
}
