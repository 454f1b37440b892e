package org.trebleproof.cli.shelf;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.function.Supplier;
import org.trebleproof.cli.command.Subcommand;

/** The commands of the shelf; looked at only where one of them, or their help, is asked for. */
public final class ShelfCommands {

  /** By their second word. */
  public static final Map<String, Supplier<Subcommand>> BY_NAME = new LinkedHashMap<>();

  static {
    BY_NAME.put("add", ShelfAddCommand::new);
    BY_NAME.put("list", ShelfListCommand::new);
    BY_NAME.put("sheet", ShelfSheetCommand::new);
    BY_NAME.put("pairs", ShelfPairsCommand::new);
    BY_NAME.put("like", ShelfLikeCommand::new);
    BY_NAME.put("recipe", ShelfRecipeCommand::new);
    BY_NAME.put("judge", ShelfJudgeCommand::new);
    BY_NAME.put("drift", ShelfDriftCommand::new);
    BY_NAME.put("benches", ShelfBenchesCommand::new);
    BY_NAME.put("again", ShelfAgainCommand::new);
    BY_NAME.put("note", ShelfNoteCommand::new);
    BY_NAME.put("check", ShelfCheckCommand::new);
    BY_NAME.put("export", ShelfExportCommand::new);
    BY_NAME.put("import", ShelfImportCommand::new);
  }

  private ShelfCommands() {}
}
