// A blind test: each trial hides one of the two sounds, and the listener says which it is.

class BlindTest {
  constructor(trials) {
    this.hidden = Array.from({ length: trials }, coin);
    this.answers = [];
  }

  get trials() {
    return this.hidden.length;
  }

  get done() {
    return this.answers.length === this.trials;
  }

  /** The side that the running trial hides. */
  get side() {
    return this.hidden[this.answers.length] ? "after" : "before";
  }

  answer(side) {
    this.answers.push(side === "after");
  }

  get right() {
    return this.answers.filter((a, i) => a === this.hidden[i]).length;
  }

  get chance() {
    return chanceOfGuessing(this.right, this.trials);
  }

  /** The result in words. */
  get verdict() {
    const percent = 100 * this.chance;
    const words = percent < 0.1 ? "less than 0.1 %" : percent.toFixed(1) + " %";
    return this.right + " of " + this.trials + " right. By guessing alone as many or more come out in " + words +
      " of tests (binomial): " + (this.chance <= 0.05 ? "you hear it." : "this test does not show that you hear it.");
  }
}
