package org.trebleproof.audio;

import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.io.PrintStream;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.jflac.FLACDecoder;
import org.jflac.FrameListener;
import org.jflac.frame.Frame;
import org.jflac.metadata.Metadata;

/**
 * Reads FLAC (RFC 9639). Only the stream description is handed to the decoder, not the other
 * metadata, whose lengths it would believe. Every frame is held against its own check sums and
 * against the stream's description, the decoded sound against the length and the MD5 sum that the
 * file carries.
 */
final class FlacReader {

  private static final int DESCRIPTION_BYTES = 34;

  private final ByteSource source;

  FlacReader(ByteSource source) {
    this.source = source;
  }

  Recording read() throws IOException {
    byte[] head = new byte[8 + DESCRIPTION_BYTES];
    byte[] description = description();
    head[0] = 'f';
    head[1] = 'L';
    head[2] = 'a';
    head[3] = 'C';
    head[4] = (byte) 0x80; // the last metadata block, of type 0
    head[7] = DESCRIPTION_BYTES;
    System.arraycopy(description, 0, head, 8, DESCRIPTION_BYTES);

    long packed = 0;
    for (int i = 10; i < 18; i++) {
      packed = packed << 8 | description[i] & 0xff;
    }
    int rate = (int) (packed >>> 44);
    int channels = (int) (packed >>> 41 & 7) + 1;
    int bits = (int) (packed >>> 36 & 31) + 1;
    long frames = packed & 0xfffffffffL;
    SampleFormat.check(source, channels, rate, bits);
    if (bits != 16 && bits != 20 && bits != 24) {
      throw source.refuse("has samples of " + bits + " bits: export it as WAV, 24 bits.");
    }
    if (frames > 0) {
      SampleFormat.checkFits(source, frames, channels);
    }
    Blocks blocks = new Blocks(channels, bits, rate);
    FLACDecoder decoder = new FLACDecoder(new HeadAndSound(head, source));
    decoder.addFrameListener(blocks);
    decodeQuietly(decoder, blocks, frames);
    if (frames > 0 && blocks.frames != frames) {
      throw cutOff(frames, blocks);
    }
    SampleFormat.checkFits(source, blocks.frames, channels);
    byte[] sum = Arrays.copyOfRange(description, 18, 34);
    if (!Arrays.equals(sum, new byte[16]) && !Arrays.equals(sum, blocks.md5.digest())) {
      throw damaged(null);
    }
    return new Recording(source.file(), blocks.join(), rate, bits, false);
  }

  /**
   * The decoder prints remarks to standard output, where a result may be going; while it works, one
   * file at a time, nothing goes there.
   */
  private void decodeQuietly(FLACDecoder decoder, Blocks blocks, long frames) throws IOException {
    synchronized (FlacReader.class) {
      PrintStream speaking = System.out;
      System.setOut(new PrintStream(OutputStream.nullOutputStream()));
      try {
        decodeOrRefuse(decoder, blocks, frames);
      } finally {
        System.setOut(speaking);
      }
    }
  }

  private void decodeOrRefuse(FLACDecoder decoder, Blocks blocks, long frames) throws IOException {
    try {
      decoder.readMetadata();
      decode(decoder, blocks, frames);
    } catch (PastEnd e) {
      // With an unknown length the end of the file is the end of the sound.
      if (frames > blocks.frames) {
        throw cutOff(frames, blocks);
      }
    } catch (SoundFileException e) {
      throw e;
    } catch (RuntimeException e) {
      // The decoder answers damage with whatever its arrays throw.
      throw damaged(e);
    }
  }

  /** The stream description, leaving the source at the first frame. */
  private byte[] description() throws IOException {
    byte[] description = new byte[DESCRIPTION_BYTES];
    boolean last = false;
    for (boolean first = true; !last; first = false) {
      if (source.left() < 4) {
        throw damaged(null);
      }
      int type = (int) source.big(1);
      long length = source.big(3);
      last = (type & 0x80) != 0;
      long next = source.position() + length;
      if (next > source.size() || first && ((type & 0x7f) != 0 || length != DESCRIPTION_BYTES)) {
        throw damaged(null);
      }
      if (first) {
        source.bytes(description, DESCRIPTION_BYTES);
      }
      source.position(next);
    }
    return description;
  }

  private void decode(FLACDecoder decoder, Blocks blocks, long frames) throws IOException {
    while (frames == 0 || blocks.frames < frames) {
      Frame frame = decoder.readNextFrame();
      if (frame == null) {
        return;
      }
      if (frame.header.channels != blocks.channels
          || frame.header.bitsPerSample != blocks.bits
          || frame.header.sampleRate != blocks.rate
          || decoder.getBadFrames() > 0) {
        throw damaged(null);
      }
      int[][] output = new int[blocks.channels][];
      for (int c = 0; c < blocks.channels; c++) {
        output[c] = decoder.getChannelData()[c].getOutput();
      }
      blocks.add(output, frame.header.blockSize);
      SampleFormat.checkFits(source, blocks.frames, blocks.channels);
    }
    if (goesOn(decoder)) {
      throw damaged(null); // a length that was damaged to a smaller one leaves frames behind
    }
  }

  /** Whether another frame follows; other programs' labels at the end of a file are none. */
  private static boolean goesOn(FLACDecoder decoder) throws IOException {
    try {
      return decoder.readNextFrame() != null;
    } catch (PastEnd | Damage e) {
      return false;
    }
  }

  private SoundFileException cutOff(long frames, Blocks blocks) {
    return source.refuse(
        "is cut off: its header promises "
            + frames
            + " samples per channel and "
            + blocks.frames
            + " are there; copy it again from the recorder.");
  }

  private SoundFileException damaged(Throwable cause) {
    return new SoundFileException(
        source.file(), "is damaged: copy it again from the recorder, or export it as WAV.", cause);
  }

  /** Decoded blocks, and the MD5 sum over their samples as RFC 9639 defines it. */
  private static final class Blocks implements FrameListener {
    final int channels;
    final int bits;
    final int rate;
    final MessageDigest md5;
    final List<float[][]> list = new ArrayList<>();
    long frames;

    Blocks(int channels, int bits, int rate) {
      this.rate = rate;
      this.channels = channels;
      this.bits = bits;
      try {
        md5 = MessageDigest.getInstance("MD5");
      } catch (NoSuchAlgorithmException e) {
        throw new IllegalStateException("every Java has MD5", e);
      }
    }

    /** A check sum that is not met, or bytes where a frame should begin. */
    @Override
    public void processError(String words) {
      throw new Damage();
    }

    @Override
    public void processMetadata(Metadata metadata) {
      // Only the description is handed to the decoder, and it has been read already.
    }

    @Override
    public void processFrame(Frame frame) {
      // Frames are taken one by one as they are read.
    }

    void add(int[][] samples, int count) {
      float scale = (float) Math.scalb(1.0, 1 - bits);
      float[][] block = new float[channels][count];
      int width = (bits + 7) / 8;
      byte[] bytes = new byte[count * channels * width];
      for (int c = 0; c < channels; c++) {
        int[] from = samples[c];
        for (int i = 0, p = c * width; i < count; i++, p += channels * width) {
          int value = from[i];
          block[c][i] = value * scale;
          for (int b = 0; b < width; b++) {
            bytes[p + b] = (byte) (value >> 8 * b);
          }
        }
      }
      md5.update(bytes);
      list.add(block);
      frames += count;
    }

    float[][] join() {
      float[][] whole = new float[channels][(int) frames];
      for (int c = 0; c < channels; c++) {
        int at = 0;
        for (float[][] block : list) {
          System.arraycopy(block[c], 0, whole[c], at, block[c].length);
          at += block[c].length;
        }
      }
      return whole;
    }
  }

  /** The decoder would go on, with silence in place of what is damaged. */
  private static final class Damage extends RuntimeException {
    Damage() {
      super("damaged", null, false, false);
    }
  }

  /** The decoder keeps asking for what is not there; it would do so for ever. */
  private static final class PastEnd extends RuntimeException {
    PastEnd() {
      super("read past the end", null, false, false);
    }
  }

  /** The description and the frames as a stream, which says once that it has ended, then stops. */
  private static final class HeadAndSound extends InputStream {
    private final ByteSource source;
    private final byte[] block = new byte[1 << 15];
    private int at;
    private int filled;
    private boolean ended;

    HeadAndSound(byte[] head, ByteSource source) {
      this.source = source;
      System.arraycopy(head, 0, block, 0, head.length);
      filled = head.length;
    }

    @Override
    public int read() throws IOException {
      return fill() ? block[at++] & 0xff : -1;
    }

    @Override
    public int read(byte[] into, int offset, int length) throws IOException {
      if (length == 0) {
        return 0;
      }
      if (!fill()) {
        return -1;
      }
      int count = Math.min(length, filled - at);
      System.arraycopy(block, at, into, offset, count);
      at += count;
      return count;
    }

    private boolean fill() throws IOException {
      if (at == filled) {
        at = 0;
        filled = (int) Math.min(block.length, source.left());
        if (filled > 0) {
          source.bytes(block, filled);
        } else if (ended) {
          throw new PastEnd();
        } else {
          ended = true;
        }
      }
      return filled > 0;
    }
  }
}
