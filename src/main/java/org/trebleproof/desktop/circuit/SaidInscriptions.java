package org.trebleproof.desktop.circuit;

import org.trebleproof.bench.job.Slot;
import org.trebleproof.bench.mod.guitar.SignalChain;
import org.trebleproof.desktop.text.Texts;
import org.trebleproof.report.schematic.Inscription;
import org.trebleproof.report.schematic.Inscriptions;
import org.trebleproof.report.schematic.KnownInscriptions;

/** Values as they are known, an assumed one with the word that it is. */
final class SaidInscriptions implements Inscriptions {

  private final Inscriptions known;

  SaidInscriptions(SignalChain chain) {
    this.known = new KnownInscriptions(chain);
  }

  @Override
  public Inscription part(Slot slot, String name) {
    return said(known.part(slot, name));
  }

  @Override
  public Inscription coil(String pickup, CoilValue value) {
    return said(known.coil(pickup, value));
  }

  private static Inscription said(Inscription one) {
    return one.guess() && one.note().isEmpty()
        ? new Inscription(one.value(), true, Texts.of("circuit.assumed"))
        : one;
  }
}
