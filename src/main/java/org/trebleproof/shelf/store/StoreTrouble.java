package org.trebleproof.shelf.store;

import java.sql.SQLException;
import org.sqlite.SQLiteErrorCode;
import org.sqlite.SQLiteException;
import org.trebleproof.quantity.Refusal;

/** What went wrong with a store, as a sentence. */
final class StoreTrouble {

  private StoreTrouble() {}

  static Refusal of(ShelfAddress address, Throwable thrown) {
    String name = "the shelf " + address.words();
    for (Throwable t = thrown; t != null; t = t.getCause()) {
      if (t instanceof Refusal known) {
        return known;
      }
      if (t instanceof LinkageError || String.valueOf(t.getMessage()).contains("native library")) {
        return new Refusal(
            name
                + " cannot be opened, as no program may be started from the folder for temporary"
                + " files: name another folder, TREBLEPROOF_OPTS=-Dorg.sqlite.tmpdir=FOLDER"
                + " trebleproof shelf ....",
            thrown);
      }
      if (t instanceof SQLiteException e) {
        return new Refusal(name + " " + words(e.getResultCode()), thrown);
      }
      if (t instanceof SQLException e) {
        return new Refusal(name + " " + shared(e), thrown);
      }
    }
    return new Refusal(
        name + " cannot be used (" + thrown.getMessage() + "): check its address.", thrown);
  }

  private static String words(SQLiteErrorCode code) {
    String kind = code.name().replaceFirst("^(SQLITE_[A-Z]+)_?.*", "$1");
    return switch (kind) {
      case "SQLITE_BUSY", "SQLITE_LOCKED" ->
          "is being written by another process: wait until it is done, then try again.";
      case "SQLITE_FULL" ->
          "took no more, as the disk is full: make room, then go on; what was"
              + " said to be on the shelf is there.";
      case "SQLITE_READONLY", "SQLITE_PERM" ->
          "may not be written by this user: check the permissions of the file and its folder.";
      case "SQLITE_CANTOPEN" -> "cannot be opened: check the name, its folder and permissions.";
      case "SQLITE_NOTADB" -> "is no shelf: name another file.";
      case "SQLITE_CORRUPT" ->
          "is damaged: copy it away, then export what can still be read (trebleproof shelf export).";
      case "SQLITE_IOERR" ->
          "could not be read or written: check the disk, and whether it is full; what was said to be"
              + " on the shelf is there.";
      default -> "cannot be used (" + code.message + ").";
    };
  }

  private static String shared(SQLException e) {
    String state = String.valueOf(e.getSQLState());
    if (state.startsWith("08")) {
      return "is not to be reached: check that the server runs, its address and the network.";
    }
    if (state.startsWith("28")) {
      return "does not let this user in: check user and password in the address.";
    }
    if (state.startsWith("3D")) {
      return "has no data base of that name: make it first (createdb).";
    }
    if (state.startsWith("53")) {
      return "took no more, as the server is out of room or of connections.";
    }
    if (state.equals("40001") || state.equals("40P01") || state.equals("55P03")) {
      return "was being written by another bench: try again.";
    }
    return "cannot be used (" + String.valueOf(e.getMessage()).replaceAll("\\s+", " ") + ").";
  }
}
