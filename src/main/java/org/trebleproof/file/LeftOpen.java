package org.trebleproof.file;

import java.io.FilterOutputStream;
import java.io.IOException;
import java.io.OutputStream;

/** A stream whose writer may close it, while what is behind it stays open to be forced to disk. */
final class LeftOpen extends FilterOutputStream {

  LeftOpen(OutputStream out) {
    super(out);
  }

  @Override
  public void write(byte[] bytes, int from, int count) throws IOException {
    out.write(bytes, from, count);
  }

  @Override
  public void close() throws IOException {
    out.flush();
  }
}
