"""From a job to planned sheets and back to what a sawyer works by."""
