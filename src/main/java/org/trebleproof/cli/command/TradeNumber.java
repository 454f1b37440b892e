package org.trebleproof.cli.command;

import org.trebleproof.quantity.Refusal;
import org.trebleproof.quantity.TradeNotation;
import org.trebleproof.quantity.TradeNotationException;
import org.trebleproof.quantity.Unit;
import picocli.CommandLine.ITypeConverter;
import picocli.CommandLine.Model.OptionSpec;
import picocli.CommandLine.TypeConversionException;

/** A number given to an option, as the trade writes it: {@code 3.5k}, {@code 0,5}, {@code 5 s}. */
public enum TradeNumber implements ITypeConverter<Double> {
  HZ("a number of hertz, such as 3500 or 3.5k", Unit.HERTZ, ""),
  S("a number of seconds, such as 0.5", Unit.SECOND, ""),
  DB("a number of decibel, such as -12", Unit.DECIBEL, ""),
  C("a temperature in °C, such as 21.5", Unit.RATIO, "(°\\s*)?C"),
  MM("a length in millimetre, such as 150", Unit.RATIO, "mm");

  private final String wanted;
  private final Unit unit;
  private final String sign;

  TradeNumber(String wanted, Unit unit, String sign) {
    this.wanted = wanted;
    this.unit = unit;
    this.sign = sign;
  }

  /** An option that takes such a number. */
  public OptionSpec.Builder option(String name) {
    return OptionSpec.builder(name).paramLabel(name()).type(Double.class).converters(this);
  }

  /** An option that takes such a number, but a whole one. */
  public OptionSpec.Builder wholeOption(String name) {
    return OptionSpec.builder(name).paramLabel(name()).type(Integer.class).converters(whole());
  }

  private ITypeConverter<Integer> whole() {
    return text -> {
      double value = convert(text);
      if (value != Math.rint(value) || Math.abs(value) > Integer.MAX_VALUE) {
        throw new TypeConversionException(Refusal.quote(text) + " must be a whole number.");
      }
      return (int) value;
    };
  }

  @Override
  public Double convert(String text) {
    try {
      String number = sign.isEmpty() ? text : text.strip().replaceFirst("\\s*" + sign + "$", "");
      return TradeNotation.value(number, unit);
    } catch (TradeNotationException e) {
      throw new TypeConversionException(Refusal.quote(text) + " is not " + wanted + ".");
    }
  }
}
