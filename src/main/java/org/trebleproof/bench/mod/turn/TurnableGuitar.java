package org.trebleproof.bench.mod.turn;

import java.util.List;
import org.trebleproof.bench.job.OwnName;
import org.trebleproof.circuit.Circuit;

/**
 * A guitar that can be turned where there is nothing of this program: netlists whose turned parts
 * are parameters, what their controls can stand at, and the values of all other parts, in the
 * middle and in random guitars.
 *
 * @param title what it is called
 * @param models values under each coil model that stands, the likeliest first
 * @param circuits netlists of each wiring, one for each model
 * @param controls what can be moved
 * @param before where the controls stand before
 * @param after where they stand after
 * @param sayings of the trade, set up to be tried
 */
public record TurnableGuitar(
    String title,
    List<Values> models,
    List<List<Circuit>> circuits,
    List<TurnControl> controls,
    TurnSettings before,
    TurnSettings after,
    List<TriedSaying> sayings) {

  /** Beginning of the name of a parameter that a control sets. */
  public static final String TURNED = OwnName.of("turned ");

  public TurnableGuitar {
    models = List.copyOf(models);
    circuits = List.copyOf(circuits);
    controls = List.copyOf(controls);
    sayings = List.copyOf(sayings);
  }

  /**
   * Values of the parameters that no control sets. The arrays are shared: treat them as read-only.
   *
   * @param names of the parameters
   * @param centre likeliest values, SI
   * @param draws random guitars, each with a value for every name
   */
  public record Values(List<String> names, double[] centre, double[][] draws) {
    public Values {
      names = List.copyOf(names);
    }
  }
}
