/** Charts, pages, CSV and result JSON; no analysis. */
package org.trebleproof.report;
