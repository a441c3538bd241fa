{"schema": "fullfree.check/1"}
