package org.trebleproof.report.file;

import java.util.List;
import java.util.stream.Collectors;
import org.trebleproof.bench.mod.predict.HeardDistance;
import org.trebleproof.file.CsvCell;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.shelf.item.ShelvedCoil;
import org.trebleproof.shelf.sheet.CoilPairs;

/** Coils that go together, for a spreadsheet. */
public final class PairsCsv {

  private static final String HEARD = "what is heard,steps [1],steps low,steps high,around [Hz]";

  private PairsCsv() {}

  public static String ofPairs(List<CoilPairs.Pair> pairs) {
    StringBuilder csv =
        new StringBuilder("first,first bench,first date,second,second bench,second date,");
    csv.append(HEARD).append(",ratio [1],ratio low,ratio high\n");
    for (CoilPairs.Pair p : pairs) {
      csv.append(coil(p.first()) + "," + coil(p.second()) + "," + heard(p.distance()) + ",");
      csv.append(
          p.ratio().map((Estimate r) -> r.value() + "," + r.low() + "," + r.high()).orElse(",,"));
      csv.append('\n');
    }
    return csv.toString();
  }

  public static String ofSets(List<CoilPairs.CoilSet> sets) {
    StringBuilder csv = new StringBuilder("coils," + HEARD + "\n");
    for (CoilPairs.CoilSet s : sets) {
      String names = s.coils().stream().map(ShelvedCoil::name).collect(Collectors.joining("; "));
      csv.append(CsvCell.of(names) + "," + heard(s.widest()) + "\n");
    }
    return csv.toString();
  }

  private static String coil(ShelvedCoil c) {
    return String.join(
        ",",
        CsvCell.of(c.name()),
        CsvCell.of(c.circumstances().bench()),
        CsvCell.of(c.circumstances().date()));
  }

  private static String heard(HeardDistance d) {
    return String.join(
        ",",
        CsvCell.of(d.audibility().verdict().words()),
        String.valueOf(d.steps()),
        String.valueOf(d.low()),
        String.valueOf(d.high()),
        String.valueOf(d.audibility().loudest().centreHz()));
  }
}
