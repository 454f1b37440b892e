package org.trebleproof.report.file;

import java.util.List;
import java.util.Optional;
import org.trebleproof.bench.answer.Budget;
import org.trebleproof.bench.answer.FitResult;
import org.trebleproof.bench.answer.PartReading;
import org.trebleproof.bench.answer.Rows;
import org.trebleproof.bench.answer.Slip;
import org.trebleproof.bench.answer.TrebleLoss;
import org.trebleproof.json.JsonWriter;
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
    return JsonWriter.file(json -> write(json, result));
  }

  private static void write(JsonWriter json, FitResult result) {
    json.object();
    json.number("trebleproof", LAYOUT);
    json.text("title", result.job().title());
    json.text("verdict", result.verdict().standing().word());
    json.text("headline", Headline.of(result));
    writeModel(json, result.model());
    writeEstimates(json, result.rows());
    writeParts(json, result);
    if (result.difference().isPresent()) {
      json.object("difference");
      writeDifference(json, result.difference().get());
    } else if (!result.differences().isEmpty()) {
      json.array("differences");
      for (FitResult.DifferenceCurve difference : result.differences()) {
        json.object();
        writeDifference(json, difference);
      }
      json.end();
    }
    writeTrebleLoss(json, result.treble());
    writeFindings(json, result.findings());
    writeSlips(json, result.slips());
    writeAdvice(json, result.advice());
    writeBudgets(json, result.budgets());
    if (result.strikes().isPresent()) {
      StrikesJson.write(json, result.strikes().get());
    } else {
      writeCaptures(json, result.captures());
    }
    json.end();
  }

  private static void writeModel(JsonWriter json, Optional<FitResult.ModelChoice> model) {
    if (model.isEmpty()) {
      json.nothing("model");
      return;
    }
    json.object("model");
    json.text("name", model.get().name());
    json.number("reducedChiSquare", model.get().reducedChiSquare());
    json.array("alternatives");
    for (FitResult.ModelChoice.Alternative alternative : model.get().alternatives()) {
      json.object();
      json.text("name", alternative.name());
      json.number("deltaCriterion", alternative.deltaCriterion());
      json.end();
    }
    json.end();
    json.end();
  }

  private static void writeEstimates(JsonWriter json, Rows rows) {
    json.array("estimates");
    for (FitResult.Row row : rows) {
      json.object();
      json.text("key", row.key().text());
      json.text("unit", row.unit().code());
      if (row.estimate().isPresent()) {
        writeBounds(json, row.estimate().get());
      } else {
        json.nothing("value");
        json.nothing("low");
        json.nothing("high");
        json.nothing("known");
      }
      json.end();
    }
    json.end();
  }

  private static void writeBounds(JsonWriter json, Estimate estimate) {
    json.number("value", estimate.value());
    json.number("low", estimate.low());
    json.number("high", estimate.high());
    json.text("known", estimate.known().word());
  }

  /** What each part reads beside its marking. */
  private static void writeParts(JsonWriter json, FitResult result) {
    json.array("parts");
    for (String name : result.job().parts().keySet()) {
      PartReading.of(result, name).ifPresent(reading -> writePart(json, reading));
    }
    json.end();
  }

  private static void writePart(JsonWriter json, PartReading reading) {
    json.object();
    json.text("name", reading.part().name());
    json.number("marked", reading.marking().value());
    json.number("tolerance", reading.marking().tolerance());
    json.flag("toleranceStated", reading.marking().stated());
    json.text("conformity", reading.conformity().word());
    if (reading.measured().isPresent()) {
      json.object("withoutMarking");
      writeBounds(json, reading.measured().get());
      json.end();
    }
    json.end();
  }

  private static void writeDifference(JsonWriter json, FitResult.DifferenceCurve difference) {
    json.text("from", difference.from());
    json.text("to", difference.to());
    json.flag("coilFree", difference.coilFree());
    json.numbers("hz", difference.hz());
    json.numbers("dB", difference.decibel());
    json.numbers("low", difference.low());
    json.numbers("high", difference.high());
    json.end();
  }

  private static void writeTrebleLoss(JsonWriter json, List<TrebleLoss> losses) {
    json.array("trebleLoss");
    for (TrebleLoss loss : losses) {
      json.object();
      json.text("setup", loss.wiring());
      json.text("against", loss.against());
      json.number("hz", loss.hz());
      json.text("text", TrebleText.sentence(loss));
      json.array("shares");
      for (TrebleLoss.Share share : loss.shares()) {
        json.object();
        writeShare(json, share.name(), share.there(), share.heard());
        json.end();
      }
      json.end();
      json.object("all");
      writeShare(json, "all together", loss.there(), loss.heard());
      json.end();
      json.end();
    }
    json.end();
  }

  private static void writeShare(JsonWriter json, String load, Estimate there, Estimate heard) {
    json.text("load", load);
    json.text("unit", there.unit().code());
    writeBounds(json, there);
    json.object("heard");
    writeBounds(json, heard);
    json.end();
  }

  private static void writeFindings(JsonWriter json, List<Finding> findings) {
    json.array("findings");
    for (Finding finding : findings) {
      json.object();
      json.text("severity", finding.severity().word());
      json.text("code", finding.code().key());
      json.text("text", finding.text());
      json.text("evidence", finding.evidence());
      json.text("next", finding.next());
      json.array("keys");
      for (RowKey key : finding.keys()) {
        json.text(key.text());
      }
      json.end();
      json.end();
    }
    json.end();
  }

  private static void writeSlips(JsonWriter json, List<Slip> slips) {
    if (slips.isEmpty()) {
      return;
    }
    json.array("slips");
    for (Slip slip : slips) {
      json.object();
      json.text("kind", slip.kind().key());
      json.texts("at", slip.at());
      json.text("text", slip.text());
      json.end();
    }
    json.end();
  }

  private static void writeAdvice(JsonWriter json, List<FitResult.Advice> advice) {
    json.array("advice");
    for (FitResult.Advice item : advice) {
      json.object();
      json.text("text", item.text());
      json.text("key", item.key().text());
      json.number("now", item.now());
      json.number("then", item.then());
      json.end();
    }
    json.end();
  }

  private static void writeBudgets(JsonWriter json, List<Budget> budgets) {
    json.array("uncertainty");
    for (Budget budget : budgets) {
      json.object();
      json.text("key", budget.number().text());
      json.text("unit", budget.unit().code());
      json.number("standardUncertainty", budget.uncertainty());
      json.array("shares");
      for (Budget.Share share : budget.shares()) {
        json.object();
        json.text("source", share.origin().source().code());
        if (!share.origin().part().isEmpty()) {
          json.text("part", share.origin().part());
        }
        json.number("share", share.share());
        json.end();
      }
      json.end();
      json.end();
    }
    json.end();
  }

  private static void writeCaptures(JsonWriter json, List<FitResult.CaptureFit> captures) {
    json.array("captures");
    for (FitResult.CaptureFit capture : captures) {
      json.object();
      json.text("id", capture.id());
      json.text("setup", capture.setup());
      json.text("sha256", capture.sha256());
      json.number("sampleRate", capture.sampleRate());
      json.number("bits", capture.bits());
      json.number("sweeps", capture.sweeps());
      json.end();
    }
    json.end();
  }
}
