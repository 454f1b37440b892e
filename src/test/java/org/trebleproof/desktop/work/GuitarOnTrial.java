package org.trebleproof.desktop.work;

import java.nio.file.Path;
import java.time.InstantSource;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.trebleproof.bench.job.PlanReader;
import org.trebleproof.bench.mod.guitar.SignalChain;
import org.trebleproof.bench.mod.guitar.TypedCoil;
import org.trebleproof.desktop.draft.RecentJobs;
import org.trebleproof.desktop.draft.SessionKeeper;
import org.trebleproof.desktop.task.LatestWins;
import org.trebleproof.desktop.task.TaskBoard;
import org.trebleproof.quantity.MarkedQuantity;
import org.trebleproof.quantity.TradeNotation;

/** A guitar of typed numbers on trial, without a job behind it. */
final class GuitarOnTrial implements AutoCloseable {

  static final SignalChain GUITAR =
      TypedCoil.guitar(
          Map.of(
              "bridge",
              new TypedCoil(
                  TradeNotation.marking("2.4", MarkedQuantity.COIL_INDUCTANCE),
                  TradeNotation.marking("5.7k", MarkedQuantity.PICKUP_RESISTANCE),
                  TradeNotation.marking("120p", MarkedQuantity.WINDING_CAPACITANCE),
                  Optional.of(TradeNotation.marking("800k", MarkedQuantity.LOSS_RESISTANCE)))),
          PlanReader.parsed(
              List.of("volume=250k,tone=250k,toneCapacitor=22n,cable=500p,input=1M")));

  private final SessionKeeper keeper;
  final Trial trial;

  GuitarOnTrial(Path state) {
    keeper = new SessionKeeper(state, "one");
    TaskBoard board = new TaskBoard(Runnable::run, Runnable::run);
    LatestWins.Pause never = (seconds, action) -> {};
    Workbench bench =
        new Workbench(
            board, Runnable::run, keeper, new RecentJobs(state), InstantSource.system(), never);
    trial = new Trial(bench, board, never);
    trial.show(Optional.of(GUITAR));
  }

  @Override
  public void close() {
    keeper.close();
  }
}
