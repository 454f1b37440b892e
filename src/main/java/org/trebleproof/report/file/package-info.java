/** Results for other programs: JSON and CSV. */
package org.trebleproof.report.file;
